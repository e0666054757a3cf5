import { sql } from 'kysely';
import type { Programme } from '../../src/index.ts';

/** A column as the database's own catalogue tells of it. */
export interface LiveColumn {
  readonly type: string;
  readonly required: boolean;
  /** The table that it refers to. */
  readonly to: string | null;
}

/** Tables of the programme with their columns, read from the database's own catalogue. */
export async function liveTables(programme: Programme): Promise<Map<string, Map<string, LiveColumn>>> {
  const { rows } = await (programme.backend === 'sqlite' ? sqliteColumns : postgresColumns).execute(
    programme.read,
  );
  const tables = new Map<string, Map<string, LiveColumn>>();
  for (const { table, name, type, required, to } of rows) {
    const columns = tables.get(table) ?? new Map<string, LiveColumn>();
    columns.set(name, { type: type.toLowerCase(), required: Boolean(required), to });
    tables.set(table, columns);
  }
  return tables;
}

interface ColumnRow {
  readonly table: string;
  readonly name: string;
  readonly type: string;
  readonly required: boolean | number;
  readonly to: string | null;
}

const sqliteColumns = sql<ColumnRow>`
  select m.name as "table", c.name as "name", c.type as "type", c."notnull" as "required", f."table" as "to"
  from sqlite_schema m
  join pragma_table_info(m.name) c
  left join pragma_foreign_key_list(m.name) f on f."from" = c.name
  where m.type = 'table'`;

const postgresColumns = sql<ColumnRow>`
  select t.relname as "table", a.attname as "name", format_type(a.atttypid, a.atttypmod) as "type",
    a.attnotnull as "required", r.relname as "to"
  from pg_class t
  join pg_namespace n on n.oid = t.relnamespace and n.nspname = 'public'
  join pg_attribute a on a.attrelid = t.oid and a.attnum > 0 and not a.attisdropped
  left join pg_constraint k on k.conrelid = t.oid and k.contype = 'f' and k.conkey = array[a.attnum]
  left join pg_class r on r.oid = k.confrelid
  where t.relkind = 'r'`;

const sqliteDescription = sql<{ line: string }>`
  select sql as line from sqlite_schema where sql is not null order by tbl_name, type desc, name`;

const postgresDescription = sql<{ line: string }>`
  select line from (
    select c.relname as t, 1 as part, a.attnum as at,
      c.relname || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod)
        || case when a.attnotnull then ' not null' else '' end
        || case a.attidentity when 'a' then ' identity' else '' end as line
    from pg_class c
    join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'public'
    join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
    where c.relkind = 'r'
    union all
    select c.relname, 2, 0, c.relname || ': ' || pg_get_constraintdef(k.oid)
    from pg_constraint k join pg_class c on c.oid = k.conrelid
    join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'public'
    where k.contype in ('p', 'f', 'u')
    union all
    select tablename, 3, 0, indexdef from pg_indexes where schemaname = 'public'
  ) described order by t collate "C", part, at, line collate "C"`;

/** The whole schema as the database describes it, for comparison with what was shipped. */
export async function describeSchema(programme: Programme): Promise<string> {
  const description = programme.backend === 'sqlite' ? sqliteDescription : postgresDescription;
  const { rows } = await description.execute(programme.read);
  return `${rows.map(({ line }) => line).join('\n')}\n`;
}
