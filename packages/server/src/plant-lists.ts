import { latestAct, type PlantListRow, type Programme, readPlantIndex } from '@keelrow/records';
import type { PlantList, PlantSort } from './contract/plants.ts';

export interface PlantsWanted {
  readonly search?: string | undefined;
  readonly origin?: string | undefined;
  readonly place?: string | undefined;
  readonly decision?: string | undefined;
  readonly alive?: 'yes' | 'no' | undefined;
  readonly sort: PlantSort;
  readonly descending: boolean;
  readonly offset: number;
  readonly limit: number;
}

/** Searches, filters and sorts the genets of a programme; the list is read anew after each change of the records. */
export class PlantLists {
  readonly #programme: Programme;
  #seq = -1;
  #rows: Promise<readonly PlantListRow[]> = Promise.resolve([]);
  readonly #inOrder = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });
  readonly #words = new WeakMap<PlantListRow, string>();

  constructor(programme: Programme) {
    this.#programme = programme;
  }

  async all(): Promise<readonly PlantListRow[]> {
    const seq = await latestAct(this.#programme.read);
    if (seq !== this.#seq) {
      this.#seq = seq;
      this.#rows = readPlantIndex(this.#programme.read).then((rows) =>
        rows.sort((a, b) => this.#inOrder.compare(a.code, b.code)),
      );
      // What could not be read is asked for again next time.
      this.#rows.catch(() => {
        this.#seq = -1;
      });
    }
    return this.#rows;
  }

  async list(wanted: PlantsWanted): Promise<PlantList> {
    const all = await this.all();
    const words = wanted.search?.trim().toLowerCase().split(/\s+/).filter(Boolean) ?? [];
    const rows = all.filter(
      (row) =>
        (!wanted.origin || row.origin === wanted.origin) &&
        (!wanted.place || row.places.includes(wanted.place)) &&
        (!wanted.decision || row.decision === wanted.decision) &&
        (!wanted.alive || row.alive > 0 === (wanted.alive === 'yes')) &&
        words.every((word) => this.#wordsOf(row).includes(word)),
    );
    const sign = wanted.descending ? -1 : 1;
    const sorted =
      wanted.sort === 'code'
        ? wanted.descending
          ? rows.reverse()
          : rows
        : rows.sort((a, b) => this.#compare(a[wanted.sort], b[wanted.sort], sign));
    return {
      total: sorted.length,
      rows: sorted.slice(wanted.offset, wanted.offset + wanted.limit),
      origins: [...new Set(all.map(({ origin }) => origin).filter((origin) => origin !== null))].sort(),
      places: [...new Set(all.flatMap(({ places }) => places))]
        .sort(this.#inOrder.compare)
        .map((code) => ({ code, name: null })),
    };
  }

  /** Empty values come last either way; texts in the order of people, 2 before 10. sign: 1 upwards, −1 downwards. */
  #compare(a: string | number | null, b: string | number | null, sign: 1 | -1): number {
    if (a === b) return 0;
    if (a === null) return 1;
    if (b === null) return -1;
    const numbers = typeof a === 'number' && typeof b === 'number';
    return sign * (numbers ? a - b : this.#inOrder.compare(String(a), String(b)));
  }

  #wordsOf(row: PlantListRow): string {
    let words = this.#words.get(row);
    if (words === undefined) {
      words = [row.code, row.name, row.taxon, row.seedParent, row.pollenParent, ...row.places]
        .join(' ')
        .toLowerCase();
      this.#words.set(row, words);
    }
    return words;
  }
}
