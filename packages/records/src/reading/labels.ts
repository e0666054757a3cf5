import { type AnyRow, type PossibleParent, writeParents } from '@keelrow/breeding/facts';
import type { LabelText } from '@keelrow/breeding/labels';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { readIdentities } from './identity.ts';
import { parentsAsText } from './parentage.ts';
import { everyRecord } from './records.ts';
import { readPlaces } from './where-plants-stand.ts';

/** What labels can be printed for. */
export const labelSubjects = ['plants', 'crosses', 'seed-lots', 'sowings', 'batches'] as const;
export type LabelSubject = (typeof labelSubjects)[number];

export interface LabelsRead {
  readonly of: LabelSubject;
  /** Plants: code of the bed; all beds where it is not given. */
  readonly place?: string | undefined;
}

export interface LabelRow extends LabelText {
  /** Name without parentage; empty where there is none. */
  readonly name: string;
  /** Code of the bed, of plants; else the year. */
  readonly group: string;
}

/**
 * What stands on labels: living plants in walking order; crosses, seed lots, sowings and batches of the latest year first.
 * Throws RecordsError where there is no such place.
 */
export const readLabels = (db: Kysely<Tables>, { of, place }: LabelsRead): Promise<LabelRow[]> =>
  of === 'plants' ? plantLabels(db, place) : recordLabels(db, of);

const inOrder = new Intl.Collator('en', { numeric: true });

async function plantLabels(db: Kysely<Tables>, place: string | undefined): Promise<LabelRow[]> {
  const places = await readPlaces(db);
  const bedWanted = place ? [...places.code].find(([, code]) => code === place)?.[0] : undefined;
  if (place && !bedWanted) throw new RecordsError('absent', `there is no place “${place}”`);
  const identities = await readIdentities(db);
  const genets = await genetsById(db);
  const parents = await parentsAsText(db);
  const plants = await db
    .selectFrom('plants')
    .select(['id', 'code', 'genet', 'planted_on'])
    .where('ended_act', 'is', null)
    .where('gone_on', 'is', null)
    .execute();
  const rows = plants.flatMap(({ id, code, genet: labelled, planted_on }) => {
    const standing = places.now(id);
    const bed = places.bedOf(standing.place) ?? standing.place;
    if (bedWanted && bed !== bedWanted && standing.place !== bedWanted) return [];
    const genet = genets.get(identities.now(id, labelled));
    const name = genet?.name ?? '';
    const pair = genet ? pairOf(parents(genet.id, 'seed'), parents(genet.id, 'pollen')) : '';
    return [
      {
        code,
        name,
        line: name || pair || (genet && genet.code !== code ? genet.code : ''),
        more: name && pair ? pair : planted_on ? `planted ${dayInWords(planted_on)}` : '',
        group: bed ? (places.code.get(bed) ?? '') : '',
        walk: standing.walk ?? Number.POSITIVE_INFINITY,
      },
    ];
  });
  rows.sort(
    (a, b) =>
      inOrder.compare(a.group, b.group) ||
      (a.walk === b.walk ? 0 : a.walk - b.walk) ||
      inOrder.compare(a.code, b.code),
  );
  return rows.map(({ walk: _sorted, ...row }) => row);
}

async function recordLabels(db: Kysely<Tables>, of: Exclude<LabelSubject, 'plants'>): Promise<LabelRow[]> {
  const crosses = new Map<string, string>();
  for await (const page of everyRecord(db, 'crosses')) {
    for (const row of page)
      crosses.set(text(row.code), pairOf(listed(row.seed_parent), listed(row.pollen_parent)));
  }
  const lots = new Map<string, string>();
  for await (const page of everyRecord(db, 'seed-lots')) {
    for (const row of page) lots.set(text(row.code), ofLot(row, crosses));
  }
  const names = new Map([...(await genetsById(db)).values()].map(({ code, name }) => [code, name]));
  const rows: LabelRow[] = [];
  for await (const page of everyRecord(db, of)) {
    for (const row of page) rows.push(labelOf[of](row, { crosses, lots, names }));
  }
  // What was made last is what is labelled now.
  return rows.sort((a, b) => inOrder.compare(b.group, a.group) || inOrder.compare(a.code, b.code));
}

interface Known {
  readonly crosses: ReadonlyMap<string, string>;
  readonly lots: ReadonlyMap<string, string>;
  readonly names: ReadonlyMap<string, string | null>;
}

const labelOf: Record<Exclude<LabelSubject, 'plants'>, (row: AnyRow, known: Known) => LabelRow> = {
  crosses: (row, { crosses }) => ({
    code: text(row.code),
    name: '',
    line: crosses.get(text(row.code)) ?? '',
    more: facts([row.made_on && dayInWords(text(row.made_on)), row.tag && `tag ${text(row.tag)}`]),
    group: yearOf(row.made_on),
  }),
  'seed-lots': (row, { lots }) => ({
    code: text(row.code),
    name: '',
    line: lots.get(text(row.code)) ?? '',
    more: facts([
      row.harvested_on && `harvested ${dayInWords(text(row.harvested_on))}`,
      typeof row.seeds === 'number' && `${row.seeds} seeds`,
    ]),
    group: yearOf(row.harvested_on),
  }),
  sowings: (row, { lots }) => ({
    code: text(row.code),
    name: '',
    line: facts([lots.get(text(row.seed_lot)), text(row.seed_lot)]),
    more: facts([
      row.on && `sown ${dayInWords(text(row.on))}`,
      typeof row.seeds === 'number' && `${row.seeds} seeds`,
      row.treatment && text(row.treatment),
    ]),
    group: yearOf(row.on),
  }),
  batches: (row, { names }) => ({
    code: text(row.code),
    name: names.get(text(row.genet)) ?? '',
    line: facts([names.get(text(row.genet)), text(row.genet)]),
    more: facts([
      row.on && `stuck ${dayInWords(text(row.on))}`,
      typeof row.stuck === 'number' && `${row.stuck} ${cuttings[text(row.sort)] ?? 'cuttings'}`,
    ]),
    group: yearOf(row.on),
  }),
};

const cuttings: Readonly<Record<string, string>> = {
  basal: 'basal cuttings',
  softwood: 'softwood cuttings',
  stem: 'stem cuttings',
  root: 'root cuttings',
  division: 'divisions',
};

function ofLot(row: AnyRow, crosses: ReadonlyMap<string, string>): string {
  const ofCross = row.cross ? crosses.get(text(row.cross)) : undefined;
  if (ofCross) return ofCross;
  if (row.seed_parent) return `${text(row.seed_parent)} × open`;
  return text(row.locality) || text(row.accession);
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const listed = (parents: unknown): string => writeParents((parents ?? []) as readonly PossibleParent[]);
const facts = (words: readonly (string | false | 0 | null | undefined)[]): string =>
  words.filter(Boolean).join(', ');
const yearOf = (day: unknown): string => text(day).slice(0, 4);

/** `A × B`; a parent that is not known, or one of several, is told as such. */
const pairOf = (seed: string, pollen: string): string =>
  seed || pollen ? (pollen === 'self' ? `${oneOf(seed)} selfed` : `${oneOf(seed)} × ${oneOf(pollen)}`) : '';

function oneOf(parents: string): string {
  const possible = parents === '' ? 0 : parents.split(';').length;
  return possible === 0 ? '?' : possible === 1 ? parents : `one of ${possible}`;
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const dayInWords = (day: string): string =>
  `${Number(day.slice(8, 10))} ${months[Number(day.slice(5, 7)) - 1]} ${day.slice(0, 4)}`;

async function genetsById(
  db: Kysely<Tables>,
): Promise<Map<string, { id: string; code: string; name: string | null }>> {
  const rows = await db.selectFrom('genets').select(['id', 'code', 'name']).execute();
  return new Map(rows.map((row) => [row.id, row]));
}
