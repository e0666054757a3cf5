export * from './loops.ts';
