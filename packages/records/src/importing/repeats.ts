import { type AnyRow, fieldAsText, fieldsOf, type KindName, kindOf } from '@keelrow/breeding/facts';
import { everyRecord } from '../reading/records.ts';
import type { Act } from '../writing/act.ts';
import { digestOf } from '../writing/act.ts';
import type { Encoded } from '../writing/encode.ts';

/** What is wrong with a row that repeats another. */
export interface Repeat {
  readonly field: string;
  readonly problem: string;
  readonly remedy: string;
}

interface Checked {
  readonly record: AnyRow;
  readonly encoded: Encoded;
}

const saidBy = (kind: KindName, row: AnyRow): string =>
  JSON.stringify(fieldsOf(kind).map(([name, field]) => fieldAsText(field, row[name])));

const dayAtSite = ({ columns }: Encoded): string => `${columns.site} ${columns.on}`;

/** Finds rows of one file that repeat another of its rows, or that take a day which is taken. */
export class Repeats {
  readonly #kind: KindName;
  readonly #seen = new Map<string, number>();
  #standing: Set<string> | null = null;

  constructor(kind: KindName) {
    this.#kind = kind;
  }

  /**
   * What is wrong with the records of one row: an id, or a day of weather, that an earlier row has, or all the same as
   * an earlier row says. In a sheet with a column a trait single values may well repeat; the row as a whole may not.
   */
  inFile(row: number, records: readonly Checked[]): Repeat | null {
    for (const { record, encoded } of records) {
      const byId = typeof record.id === 'string' ? this.#firstRow(`id ${record.id}`, row) : null;
      if (byId !== null)
        return {
          field: 'id',
          problem: `this id stands in row ${byId} already`,
          remedy: 'take out one of the two rows, or empty its id',
        };
      const byDay = this.#kind === 'weather' ? this.#firstRow(`day ${dayAtSite(encoded)}`, row) : null;
      if (byDay !== null)
        return {
          field: 'on',
          problem: `row ${byDay} gives the weather of this day at this site already`,
          remedy: 'take out one of the two rows',
        };
    }
    const { key, many } = kindOf(this.#kind);
    if (key || records.length === 0 || records.some(({ record }) => record.id)) return null;
    const said = records.map(({ encoded }) => digestOf(encoded.columns)).join(' ');
    const first = this.#firstRow(`says ${said}`, row);
    return first === null
      ? null
      : {
          field: 'on',
          problem: `this row says the same as row ${first}`,
          remedy: `take out one of the two; ${many} that were truly made twice are told apart by a remark`,
        };
  }

  /** The row at which a key was first seen; null where this is the first. */
  #firstRow(key: string, row: number): number | null {
    const first = this.#seen.get(key);
    if (first !== undefined) return first;
    this.#seen.set(key, row);
    return null;
  }

  /** Whether a record of a kind without codes stands already with the same words. */
  async isStanding(doing: Pick<Act, 'tx'>, record: AnyRow): Promise<boolean> {
    if (!this.#standing) {
      this.#standing = new Set();
      for await (const page of everyRecord(doing.tx, this.#kind))
        for (const row of page) this.#standing.add(saidBy(this.#kind, row));
    }
    return this.#standing.has(saidBy(this.#kind, record));
  }

  /** Which of the new rows give the weather of a day that is there already. */
  async daysTaken(
    doing: Pick<Act, 'tx'>,
    rows: readonly Checked[],
  ): Promise<(encoded: Encoded) => Repeat | null> {
    if (this.#kind !== 'weather' || rows.length === 0) return () => null;
    const days = [...new Set(rows.map(({ encoded }) => String(encoded.columns.on)))];
    const stored = await doing.tx
      .selectFrom('weather')
      .select(['site', 'on'])
      .where('on', 'in', days)
      .where('ended_act', 'is', null)
      .execute();
    const taken = new Set(stored.map(({ site, on }) => `${site} ${on}`));
    return (encoded) =>
      taken.has(dayAtSite(encoded))
        ? {
            field: 'on',
            problem: 'the weather of this day at this site is there already and says otherwise',
            remedy: 'take the row out, or correct that day on its own page',
          }
        : null;
  }
}
