export { RefusedError } from './refusals.ts';
export {
  type RunningServer,
  refuseOpenBeyondThisComputer,
  type ServerWanted,
  startServer,
} from './start-server.ts';
