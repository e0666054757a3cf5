import {
  type Brief,
  type BriefData,
  BriefError,
  type BriefLimit,
  type BriefTrait,
  checkBrief,
  type Line,
  linesOf,
  requirementOf,
} from '@keelrow/breeding/brief';
import type { Kysely } from 'kysely';
import { readSettings } from '../database/settings.ts';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { readPedigree } from './pedigree.ts';
import { readPlantIndex } from './plant-index.ts';
import { readTraitNotes } from './trait-notes.ts';
import { readTraits } from './traits.ts';

/**
 * Reads a brief, by code or id, with all that it is held against: the notes of its traits, the pedigree and the genets
 * of which a plant is alive. Refused with the list of briefs where there is none of that name.
 */
export async function readBriefData(db: Kysely<Tables>, codeOrId: string): Promise<BriefData> {
  const brief = await readBrief(db, codeOrId);
  const traits = await readBriefTraits(db);
  const units = (await readSettings(db))?.units ?? 'metric';
  refuseFaults(brief, traits, units);
  const requirements = brief.limits.map((limit) => requirementOf(limit, traits));
  const lines: BriefData['lines'][number][] = [];
  for (const line of linesOf(requirements)) lines.push({ line, notes: await notesOf(db, line) });
  const classes: BriefData['classes'][number][] = [];
  for (const requirement of requirements) {
    if (requirement.kind !== 'classes') continue;
    const data = await readTraitNotes(db, requirement.trait, 'class');
    classes.push({ trait: requirement.trait, notes: data?.notes ?? [] });
  }
  const living = (await readPlantIndex(db)).filter(({ alive }) => alive > 0);
  return {
    brief,
    units,
    traits,
    genets: living.map(({ id, code, name, standard }) => ({ id, code, name, standard })),
    pedigree: await readPedigree(db),
    lines,
    classes,
  };
}

function refuseFaults(brief: Brief, traits: readonly BriefTrait[], units: BriefData['units']): void {
  try {
    checkBrief(brief, traits, units);
  } catch (error) {
    throw error instanceof BriefError ? new RecordsError('input', error.message, error.remedy) : error;
  }
}

const notesOf = async (db: Kysely<Tables>, { trait, axis }: Line) =>
  (await readTraitNotes(db, trait, axis))?.notes ?? [];

async function readBrief(db: Kysely<Tables>, codeOrId: string): Promise<Brief> {
  const standing = await db
    .selectFrom('briefs')
    .select(['id', 'code', 'name'])
    .where('ended_act', 'is', null)
    .orderBy('code')
    .execute();
  const brief = standing.find(({ id, code }) => id === codeOrId || code === codeOrId);
  if (!brief)
    throw new RecordsError(
      'absent',
      `there is no brief “${codeOrId}”`,
      standing.length > 0
        ? `the briefs are ${standing.map(({ code }) => code).join(', ')}`
        : 'there are none yet; make one under Briefs, or import briefs and brief-limits',
    );
  const rows = await db
    .selectFrom('brief_limits')
    .innerJoin('traits', 'traits.id', 'brief_limits.trait')
    .selectAll('brief_limits')
    .select('traits.code as trait_code')
    .where('brief_limits.brief', '=', brief.id)
    .where('brief_limits.ended_act', 'is', null)
    .orderBy('brief_limits.id')
    .execute();
  return {
    ...brief,
    limits: rows.map(
      (row): BriefLimit => ({
        trait: row.trait_code,
        must: row.must === 1,
        weight: row.weight,
        atLeast: row.at_least,
        atMost: row.at_most,
        classes: row.classes ? row.classes.split(' | ') : null,
        colour:
          row.colour_l === null ? null : { l: row.colour_l, a: row.colour_a ?? 0, b: row.colour_b ?? 0 },
        colourWithin: row.colour_within,
        fromWeek: row.from_week,
        toWeek: row.to_week,
      }),
    ),
  };
}

async function readBriefTraits(db: Kysely<Tables>): Promise<BriefTrait[]> {
  const stages = await db
    .selectFrom('traits')
    .select(['id', 'bbch'])
    .where('ended_act', 'is', null)
    .execute();
  const bbch = new Map(stages.map((row) => [row.id, row.bbch]));
  return (await readTraits(db)).map((trait) => ({ ...trait, bbch: bbch.get(trait.id) ?? null }));
}
