/** What the browser app and the server say to each other. Types alone: nothing of the server's code comes along. */
export type * from './briefs.ts';
export type * from './estimates.ts';
export type * from './importing.ts';
export type * from './notes.ts';
export type * from './phone.ts';
export type * from './pictures.ts';
export type * from './plants.ts';
export type * from './printing.ts';
export type * from './programme.ts';
