import type { Kysely, Migration } from 'kysely';

/** Round sheets that were printed: which plants stand on each, in which order, so that it can be typed in as it is. */
export const roundSheets: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('round_sheets')
      .addColumn('code', 'text', (column) => column.primaryKey())
      .addColumn('made_at', 'text', (column) => column.notNull())
      .addColumn('content', 'text', (column) => column.notNull())
      .execute();
  },
};
