export type * from './match.ts';
