import { type CreateTableBuilder, type Kysely, type Migration, sql } from 'kysely';
import { firstTables, type TableAsShipped } from './0001-tables.ts';

/**
 * The first schema. Shipped migrations are never edited: what comes later is a migration of its own, and only adds.
 * Every reference is checked at commit, so that records may be stored in any order within one act.
 */
const tablesWithParents = ['genets', 'crosses'];

const isPostgres = (db: Kysely<unknown>): boolean =>
  db.getExecutor().adapter.constructor.name.startsWith('Postgres');

async function makeBookkeeping(db: Kysely<unknown>): Promise<void> {
  const postgres = isPostgres(db);
  await db.schema
    .createTable('acts')
    .addColumn('seq', postgres ? 'bigint' : 'integer', (column) =>
      postgres ? column.generatedAlwaysAsIdentity().primaryKey() : column.autoIncrement().primaryKey(),
    )
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('said_at', 'text')
    .addColumn('person', 'text')
    .addColumn('device', 'text')
    .addColumn('via', 'text', (column) => column.notNull())
    .addColumn('reason', 'text')
    .addColumn('file_name', 'text')
    .addColumn('file_hash', 'text')
    .execute();
  await db.schema
    .createTable('changes')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('act', actType(postgres), (column) => column.notNull().references('acts.seq'))
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('record', 'text', (column) => column.notNull())
    .addColumn('field', 'text', (column) => column.notNull())
    .addColumn('before', 'text')
    .addColumn('after', 'text')
    .execute();
  await db.schema
    .createTable('endings')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('act', actType(postgres), (column) => column.notNull().references('acts.seq'))
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('record', 'text', (column) => column.notNull())
    .addColumn('what', 'text', (column) => column.notNull())
    .addColumn('by_record', 'text')
    .addColumn('reason', 'text')
    .execute();
  await db.schema.createIndex('changes_record').on('changes').column('record').execute();
  await db.schema.createIndex('endings_record').on('endings').column('record').execute();
  await db.schema.createIndex('acts_file_hash').on('acts').column('file_hash').execute();
  await db.schema
    .createTable('programme')
    .addColumn('id', 'integer', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('time_zone', 'text', (column) => column.notNull())
    .addColumn('units', 'text', (column) => column.notNull())
    .addColumn('kind_of_garden', 'text', (column) => column.notNull())
    .execute();
  await db.schema
    .createTable('code_patterns')
    .addColumn('kind', 'text', (column) => column.primaryKey())
    .addColumn('pattern', 'text', (column) => column.notNull())
    .execute();
  await db.schema
    .createTable('keys')
    .addColumn('digest', 'text', (column) => column.primaryKey())
    .addColumn('person', 'text', (column) => column.notNull())
    .addColumn('device', 'text')
    .addColumn('purpose', 'text', (column) => column.notNull())
    .addColumn('made_at', 'text', (column) => column.notNull())
    .addColumn('ends_at', 'text')
    .execute();
}

const actType = (postgres: boolean) => (postgres ? 'bigint' : 'integer');
const realType = (postgres: boolean) => (postgres ? 'double precision' : 'real');

interface ColumnAsShipped {
  readonly name: string;
  readonly type: string;
  readonly required: boolean;
  /** The table referred to. */
  readonly to: string | null;
}

function columnsAsShipped(columns: string): ColumnAsShipped[] {
  return columns.split(',').map((declared) => {
    const [name, ...rest] = declared.trim().replace('!', '').split(' ') as [string, ...string[]];
    const to = rest[0] === '->' ? rest[1]! : null;
    return { name, type: to ? 'text' : rest[0]!, required: declared.trim().endsWith('!'), to };
  });
}

async function makeTable(db: Kysely<unknown>, name: string, shipped: TableAsShipped): Promise<void> {
  const postgres = isPostgres(db);
  const columns = columnsAsShipped(shipped.columns);
  let table: CreateTableBuilder<string, string> = db.schema
    .createTable(name)
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('made_act', actType(postgres), (column) => column.notNull().references('acts.seq'))
    .addColumn('ended_act', actType(postgres), (column) => column.references('acts.seq'));
  if (shipped.nature === 'fact') table = table.addColumn('replaces', 'text').addColumn('digest', 'text');
  for (const { name: column, type, required, to } of columns) {
    const stored = type === 'real' ? realType(postgres) : (type as 'text' | 'integer');
    table = table.addColumn(column, stored, (built) => (required ? built.notNull() : built));
    // SQLite takes references only with the table, PostgreSQL only to tables that are there (see addReferences).
    if (to && !postgres) {
      table = table.addForeignKeyConstraint(`${name}_${column}_fk`, [column as never], to, ['id'], (built) =>
        built.deferrable().initiallyDeferred(),
      );
    }
  }
  await table.execute();
  if (shipped.key) {
    await db.schema
      .createIndex(`${name}_${shipped.key}_once`)
      .unique()
      .on(name)
      .column(shipped.key)
      .execute();
  }
  for (const { name: column } of columns.filter(({ to }) => to)) {
    await db.schema
      .createIndex(`${name}_${column}_at`)
      .on(name)
      .column(column)
      .where(sql.ref(column), 'is not', null)
      .execute();
  }
  if (shipped.nature === 'fact')
    await db.schema.createIndex(`${name}_digest`).on(name).column('digest').execute();
}

async function addReferences(db: Kysely<unknown>, name: string, shipped: TableAsShipped): Promise<void> {
  for (const { name: column, to } of columnsAsShipped(shipped.columns)) {
    if (!to) continue;
    await db.schema
      .alterTable(name)
      .addForeignKeyConstraint(`${name}_${column}_fk`, [column], to, ['id'], (built) =>
        built.deferrable().initiallyDeferred(),
      )
      .execute();
  }
}

async function makeParentsTable(db: Kysely<unknown>, owner: string): Promise<void> {
  const name = `${owner}_parents`;
  await db.schema
    .createTable(name)
    .addColumn('owner', 'text', (column) => column.notNull())
    .addColumn('side', 'text', (column) => column.notNull())
    .addColumn('listed', 'integer', (column) => column.notNull())
    .addColumn('parent', 'text')
    .addColumn('chance', realType(isPostgres(db)), (column) => column.notNull())
    .addPrimaryKeyConstraint(`${name}_pk`, ['owner', 'side', 'listed'])
    .addForeignKeyConstraint(`${name}_owner_fk`, ['owner'], owner, ['id'], (built) =>
      built.deferrable().initiallyDeferred(),
    )
    .addForeignKeyConstraint(`${name}_parent_fk`, ['parent'], 'genets', ['id'], (built) =>
      built.deferrable().initiallyDeferred(),
    )
    .execute();
  await db.schema.createIndex(`${name}_parent_at`).on(name).column('parent').execute();
}

export const firstRecords: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await makeBookkeeping(db);
    for (const [name, table] of Object.entries(firstTables)) await makeTable(db, name, table);
    if (isPostgres(db))
      for (const [name, table] of Object.entries(firstTables)) await addReferences(db, name, table);
    for (const owner of tablesWithParents) await makeParentsTable(db, owner);
    await db.schema
      .createIndex('weather_once')
      .unique()
      .on('weather')
      .columns(['site', 'on'])
      .where(sql.ref('ended_act'), 'is', null)
      .execute();
  },
};
