export { RefusedError } from './refusals.ts';
export { type RunningServer, type ServerWanted, startServer } from './start-server.ts';
