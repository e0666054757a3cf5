import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { untilNextAct } from './kept-readings.ts';
import { readParentage } from './parentage.ts';

export interface FamilyMember {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly origin: string | null;
  /** 0 the genet itself, −1 its parents, 1 its children. */
  readonly generation: number;
  readonly alive: boolean;
  /** Full sibs that this member stands for, itself among them, where many children are drawn as one. */
  readonly standsFor?: readonly string[];
}

export interface FamilyLink {
  readonly parent: string;
  readonly child: string;
  readonly side: 'seed' | 'pollen' | 'self' | 'clone';
  readonly chance: number;
}

export interface Family {
  readonly self: string;
  readonly members: readonly FamilyMember[];
  readonly links: readonly FamilyLink[];
  /** Ancestors and descendants beyond what is drawn. */
  readonly more: { readonly up: number; readonly down: number };
}

const generationsUp = 3;
const generationsDown = 2;
/** Children of one pair of parents that are drawn one by one; larger families are drawn as one. */
const sibsDrawn = 4;

interface Links {
  readonly up: ReadonlyMap<string, FamilyLink[]>;
  readonly down: ReadonlyMap<string, FamilyLink[]>;
}

/** All links from parents to children of the programme, by child and by parent. */
async function readLinks(db: Kysely<Tables>): Promise<Links> {
  const parentage = await readParentage(db);
  const genets = await db
    .selectFrom('genets')
    .select(['id', 'clone_of'])
    .where('ended_act', 'is', null)
    .execute();
  const up = new Map<string, FamilyLink[]>();
  const down = new Map<string, FamilyLink[]>();
  const learn = (link: FamilyLink) => {
    up.set(link.child, [...(up.get(link.child) ?? []), link]);
    const children = down.get(link.parent);
    if (children) children.push(link);
    else down.set(link.parent, [link]);
  };
  for (const { id, clone_of } of genets) {
    if (clone_of) learn({ parent: clone_of, child: id, side: 'clone', chance: 1 });
    const mothers = parentage.of(id, 'seed');
    for (const { parent, chance } of mothers) if (parent) learn({ parent, child: id, side: 'seed', chance });
    for (const { parent, chance } of parentage.of(id, 'pollen')) {
      if (parent) learn({ parent, child: id, side: 'pollen', chance });
      else
        for (const mother of mothers)
          if (mother.parent)
            learn({ parent: mother.parent, child: id, side: 'self', chance: chance * mother.chance });
    }
  }
  return { up, down };
}

/** The ancestors and descendants of a genet, for drawing: three generations up, two down, large sibships as one. */
export async function readFamily(db: Kysely<Tables>, self: string): Promise<Family> {
  const { up, down } = await untilNextAct(db, 'links of families', readLinks);
  const generation = new Map([[self, 0]]);
  const links = new Map<string, FamilyLink>();
  const standsFor = new Map<string, readonly string[]>();
  const keep = (link: FamilyLink) => links.set(`${link.parent} ${link.child} ${link.side}`, link);
  let here = [self];
  for (let step = 1; step <= generationsUp; step++) {
    const next: string[] = [];
    for (const link of here.flatMap((child) => up.get(child) ?? [])) {
      keep(link);
      if (generation.has(link.parent)) continue;
      generation.set(link.parent, -step);
      next.push(link.parent);
    }
    here = next;
  }
  const upMore = new Set(
    here
      .flatMap((child) => (up.get(child) ?? []).map(({ parent }) => parent))
      .filter((id) => !generation.has(id)),
  ).size;
  here = [self];
  for (let step = 1; step <= generationsDown; step++) {
    const next: string[] = [];
    for (const [child, sibs] of gatherSibs(here, up, down)) {
      if (generation.has(child)) continue;
      for (const link of up.get(child) ?? []) if (here.includes(link.parent)) keep(link);
      generation.set(child, step);
      if (sibs.length > 1) standsFor.set(child, sibs);
      next.push(child);
    }
    here = next;
  }
  const downMore = new Set(
    here
      .flatMap((parent) => (down.get(parent) ?? []).map(({ child }) => child))
      .filter((id) => !generation.has(id)),
  ).size;
  return {
    self,
    members: await membersOf(db, generation, standsFor),
    links: [...links.values()],
    more: { up: upMore, down: downMore },
  };
}

/** Children of these parents; of sibs with the same parents beyond a few, one stands for all. */
function gatherSibs(
  parents: readonly string[],
  up: ReadonlyMap<string, FamilyLink[]>,
  down: ReadonlyMap<string, FamilyLink[]>,
): Map<string, readonly string[]> {
  const families = new Map<string, string[]>();
  for (const child of new Set(
    parents.flatMap((parent) => (down.get(parent) ?? []).map((link) => link.child)),
  )) {
    const key = (up.get(child) ?? [])
      .map(({ parent, side, chance }) => `${parent} ${side} ${chance}`)
      .sort()
      .join('|');
    const sibs = families.get(key);
    if (sibs) sibs.push(child);
    else families.set(key, [child]);
  }
  const drawn = new Map<string, readonly string[]>();
  for (const sibs of families.values()) {
    // A sib that has children itself is drawn in its own right.
    const withChildren = sibs.filter((sib) => down.has(sib));
    const others = sibs.filter((sib) => !down.has(sib));
    for (const sib of withChildren) drawn.set(sib, [sib]);
    if (others.length <= sibsDrawn) for (const sib of others) drawn.set(sib, [sib]);
    else drawn.set(others[0]!, others);
  }
  return drawn;
}

async function membersOf(
  db: Kysely<Tables>,
  generation: ReadonlyMap<string, number>,
  standsFor: ReadonlyMap<string, readonly string[]>,
): Promise<FamilyMember[]> {
  const ids = [...generation.keys()];
  const rows = await db
    .selectFrom('genets')
    .select(['id', 'code', 'name', 'origin'])
    .where('id', 'in', ids)
    .execute();
  const alive = await db
    .selectFrom('plants')
    .select('genet')
    .where('genet', 'in', ids)
    .where('gone_on', 'is', null)
    .where('ended_act', 'is', null)
    .distinct()
    .execute();
  const living = new Set(alive.map(({ genet }) => genet));
  return rows
    .map((row) => ({
      ...row,
      generation: generation.get(row.id)!,
      alive: living.has(row.id),
      ...(standsFor.has(row.id) ? { standsFor: standsFor.get(row.id)! } : {}),
    }))
    .sort((a, b) => a.generation - b.generation || (a.code < b.code ? -1 : 1));
}
