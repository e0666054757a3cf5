import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { readIdentities } from './identity.ts';

/** A picture or spoken memo with what it shows; its file is kept under its hash. */
export interface PictureShown {
  readonly hash: string;
  readonly mediaType: string | null;
  readonly plant: string | null;
  /** The genet that the plant was held to be on the day. */
  readonly genet: { readonly id: string; readonly code: string; readonly name: string | null } | null;
  readonly trait: { readonly code: string; readonly name: string } | null;
  readonly takenOn: string | null;
  readonly by: string | null;
  readonly caption: string | null;
  /** Remark of the note that it belongs to. */
  readonly remark: string | null;
}

export interface PicturesWanted {
  /** Id of a genet. */
  readonly genet?: string;
  /** Part of a plant's or genet's code or name. */
  readonly search?: string;
  /** Code of a trait. */
  readonly trait?: string;
  /** First and last day. */
  readonly from?: string;
  readonly to?: string;
  readonly offset: number;
  readonly limit: number;
}

/** Pictures and memos by plant, trait and day, latest first; those without a day last. */
export async function readPictures(
  db: Kysely<Tables>,
  wanted: PicturesWanted,
): Promise<{ readonly total: number; readonly pictures: readonly PictureShown[] }> {
  const identities = await readIdentities(db);
  const genets = new Map(
    (await db.selectFrom('genets').select(['id', 'code', 'name']).execute()).map((genet) => [
      genet.id,
      genet,
    ]),
  );
  let query = db
    .selectFrom('photos')
    .leftJoin('plants', 'plants.id', 'photos.plant')
    .leftJoin('traits', 'traits.id', 'photos.trait')
    .leftJoin('people', 'people.id', 'photos.by')
    .select([
      'photos.id',
      'photos.hash',
      'photos.media_type',
      'photos.plant',
      'plants.code as plant_code',
      'plants.genet as labelled',
      'photos.genet',
      'traits.code as trait_code',
      'traits.name as trait_name',
      'photos.taken_on',
      'people.code as by',
      'photos.caption',
    ])
    .where('photos.ended_act', 'is', null);
  if (wanted.trait) query = query.where('traits.code', '=', wanted.trait);
  if (wanted.from) query = query.where('photos.taken_on', '>=', wanted.from);
  if (wanted.to) query = query.where('photos.taken_on', '<=', wanted.to);
  const all = (await query.execute()).map((row) => {
    const held =
      row.plant && row.labelled ? identities.on(row.plant, row.labelled, row.taken_on ?? '9999-12-31') : null;
    return { ...row, shows: genets.get(row.genet ?? held ?? '') ?? null };
  });
  const sought = wanted.search?.trim().toLowerCase() ?? '';
  const found = all
    .filter(({ shows }) => wanted.genet === undefined || shows?.id === wanted.genet)
    .filter(({ plant_code, shows }) =>
      [plant_code, shows?.code, shows?.name].some((word) => word?.toLowerCase().includes(sought) ?? false),
    )
    .sort(
      (a, b) =>
        (b.taken_on ?? '').localeCompare(a.taken_on ?? '') ||
        (a.plant_code ?? '').localeCompare(b.plant_code ?? '', 'en', { numeric: true }) ||
        (a.id < b.id ? -1 : 1),
    );
  const page = found.slice(wanted.offset, wanted.offset + wanted.limit);
  const remarks = await remarksOf(
    db,
    page.map(({ id }) => id),
  );
  return {
    total: found.length,
    pictures: page.map((row) => ({
      hash: row.hash,
      mediaType: row.media_type,
      plant: row.plant_code,
      genet: row.shows,
      trait: row.trait_code ? { code: row.trait_code, name: row.trait_name ?? row.trait_code } : null,
      takenOn: row.taken_on,
      by: row.by,
      caption: row.caption,
      remark: remarks.get(row.id) ?? null,
    })),
  };
}

async function remarksOf(db: Kysely<Tables>, pictures: readonly string[]): Promise<Map<string, string>> {
  if (pictures.length === 0) return new Map();
  const notes = await db
    .selectFrom('notes')
    .select(['photo', 'remark'])
    .where('photo', 'in', pictures)
    .where('ended_act', 'is', null)
    .where('remark', 'is not', null)
    .execute();
  return new Map(notes.map(({ photo, remark }) => [photo!, remark!]));
}
