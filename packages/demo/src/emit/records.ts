import type { SimulatedRecord, SimulatedWithdrawal } from '../garden.ts';
import type { Accession } from '../programme/founders.ts';
import type { Programme } from '../programme/programme.ts';
import { briefLimits, briefs } from '../scenario/briefs.ts';
import { taxa } from '../scenario/origins.ts';
import { devices, people } from '../scenario/people.ts';
import { traits } from '../scenario/traits.ts';
import { disclosureRows, trialEntryRows, trialRows } from './choice-rows.ts';
import { crossRows, pollenLotRows, pollenTestRows, pollinationRows } from './crossing-rows.ts';
import { batchCountRows, batchRows } from './increase-rows.ts';
import { allNotes } from './note-rows.ts';
import { accessionRows, determinationRows, localityRows, termRows } from './origin-rows.ts';
import { conditionRows, placeRows, weatherRows } from './place-rows.ts';
import { decisionRows, genetRows, identityRows, moveRows, plantRows } from './plant-rows.ts';
import { ofKind } from './rows.ts';
import {
  germinationRows,
  harvestRows,
  movementRows,
  seedLotRows,
  sowingCountRows,
  sowingRows,
} from './seed-rows.ts';

/** All records, kind by kind in the order of the catalogue; there are no photos, whose files would have to come along. */
export function* allRecords(
  programme: Programme,
  accessions: readonly Accession[],
): Generator<SimulatedRecord> {
  const random = (kind: string) => programme.random.fork(`rows of ${kind}`);
  yield* ofKind('people', people);
  yield* ofKind('devices', devices(programme.scale.startYear));
  yield* ofKind('taxa', taxa(programme.scale.startYear));
  yield* ofKind('localities', localityRows(programme.scale.startYear));
  yield* ofKind('places', placeRows(programme));
  yield* ofKind('place-conditions', conditionRows(programme, random('place-conditions')));
  yield* ofKind('traits', traits);
  yield* ofKind('briefs', briefs);
  yield* ofKind('brief-limits', briefLimits);
  yield* ofKind('accessions', accessionRows(accessions, random('accessions')));
  yield* ofKind('genets', genetRows(programme));
  yield* ofKind('crosses', crossRows(programme));
  yield* ofKind('seed-lots', seedLotRows(programme));
  yield* ofKind('sowings', sowingRows(programme));
  yield* ofKind('batches', batchRows(programme));
  yield* ofKind('plants', plantRows(programme));
  yield* ofKind('determinations', determinationRows(accessions, random('determinations')));
  yield* ofKind('terms', termRows(accessions));
  yield* ofKind('moves', moveRows(programme, random('moves')));
  yield* ofKind('identities', identityRows(programme, random('identities')));
  for (const { row } of allNotes(programme, random('notes'))) yield { kind: 'notes', row };
  yield* ofKind('decisions', decisionRows(programme, random('decisions')));
  yield* ofKind('pollen-lots', pollenLotRows(programme));
  yield* ofKind('pollen-tests', pollenTestRows(programme, random('pollen-tests')));
  yield* ofKind('pollinations', pollinationRows(programme, random('pollinations')));
  yield* ofKind('harvests', harvestRows(programme, random('harvests')));
  yield* ofKind('seed-movements', movementRows(programme, random('seed-movements')));
  yield* ofKind('germination-tests', germinationRows(programme, random('germination-tests')));
  yield* ofKind('sowing-counts', sowingCountRows(programme, random('sowing-counts')));
  yield* ofKind('batch-counts', batchCountRows(programme, random('batch-counts')));
  yield* ofKind('trials', trialRows(programme));
  yield* ofKind('trial-entries', trialEntryRows(programme));
  yield* ofKind('disclosures', disclosureRows(programme, random('disclosures')));
  yield* ofKind('weather', weatherRows(programme, random('weather')));
}

/** Notes struck out, and pollinations that turned out to stand on the wrong tag. */
export function* allWithdrawals(programme: Programme): Generator<SimulatedWithdrawal> {
  for (const { row, withdrawn } of allNotes(programme, programme.random.fork('rows of notes'))) {
    if (withdrawn) yield { kind: 'notes', id: row.id, reason: withdrawn };
  }
  let count = 0;
  for (const { id } of pollinationRows(programme, programme.random.fork('rows of pollinations'))) {
    if (++count % 31 === 30) yield { kind: 'pollinations', id, reason: 'written on the wrong tag' };
  }
}
