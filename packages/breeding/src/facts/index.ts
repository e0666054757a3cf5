export * from './catalogue.ts';
export * from './codes.ts';
export * from './dates.ts';
export type * from './field.ts';
export * from './parents.ts';
export * from './profile.ts';
export * from './programme.ts';
export * from './units.ts';
export * from './value.ts';
