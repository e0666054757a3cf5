/**
 * Names of kinds and of stored columns (`kind.column`) that were once shipped and are no longer used. They are never
 * given a new meaning: phones with old code may still hand over records under them.
 */
export const retiredNames: readonly string[] = [];
