import { type Kysely, type Migration, sql } from 'kysely';

/**
 * What phones need: when each was last seen, which notes that say different things were settled to stand side by side,
 * and quick ways to what came since an act and to what a fact corrects.
 */
const factsHandedOver = ['notes', 'decisions', 'identities', 'moves'];

export const phones: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('sightings')
      .addColumn('device', 'text', (column) => column.primaryKey())
      .addColumn('at', 'text', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('settlements')
      .addColumn('act', 'bigint', (column) => column.notNull().references('acts.seq'))
      .addColumn('note', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('settlements_pk', ['act', 'note'])
      .execute();
    const indexThoseWith = (table: string, column: string) =>
      db.schema
        .createIndex(`${table}_${column}_at`)
        .on(table)
        .column(column)
        .where(sql.ref(column), 'is not', null)
        .execute();
    for (const table of factsHandedOver) await indexThoseWith(table, 'replaces');
    for (const table of ['plants', 'notes', 'identities', 'moves']) {
      await db.schema.createIndex(`${table}_made_act_at`).on(table).column('made_act').execute();
      await indexThoseWith(table, 'ended_act');
    }
    await db.schema.createIndex('changes_act').on('changes').column('act').execute();
    await db.schema.createIndex('keys_device').on('keys').column('device').execute();
  },
};
