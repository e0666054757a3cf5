// Draws one garden, estimates its traits and holds the estimates against the truth. Run after `npm run build`, best by way
// of `npm run calibrate`:
//   node packages/records/bench/calibrate-garden.mjs model|other SEED
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { evaluate } from '@keelrow/breeding/evaluation';
import { usualSettings } from '@keelrow/breeding/facts';
import {
  briefedGarden,
  briefsHeld,
  demoTraits,
  drawModelGarden,
  gardenSums,
  grownTruth,
  modelTraits,
  pointsOf,
  simulateGarden,
  truthOfDemo,
} from '@keelrow/demo';
import { fillWithDemo, openProgramme, readPedigree, readTraitNotes } from '../dist/index.js';
import { tell, timed } from './measuring.mjs';

/** Seedlings of a garden of the other world: a small programme, where variances are in doubt. */
const seedlings = 200;
/** Traits of the other world that briefs are tried on. */
const asOfBriefs = { height: 'more', 'spike-length': 'more', lodging: 'less' };
const [world, seed] = process.argv.slice(2);
const { result, seconds } = await timed(() =>
  world === 'model' ? modelGarden(Number(seed)) : otherGarden(Number(seed)),
);
tell({ world, seed: Number(seed), seconds, ...result });

/** Each trait has a garden of its own, selected for it; a brief has one with all of them, going together. */
function modelGarden(seed) {
  const traits = modelTraits.map((trait) => {
    const garden = drawModelGarden({ seed, traits: [trait] });
    return held(trait.name, evaluate(garden.notes.get(trait.name), garden.pedigree), {
      additive: (genet) => garden.additive(genet, trait.name),
      total: (genet) => garden.total(genet, trait.name),
      generationOf: garden.generationOf,
    });
  });
  const garden = drawModelGarden(briefedGarden(seed));
  const genets = garden.pedigree.map(({ genet }) => genet);
  const asked = modelTraits.map(({ name }, i) => ({
    trait: { code: name, name, sort: 'measured', unit: 'cm' },
    wanted: i === 2 ? 'less' : 'more',
    notes: garden.notes.get(name),
    truths: new Map(genets.map((genet) => [genet, garden.level(name) + garden.total(genet, name)])),
  }));
  return { traits, briefs: briefsHeld(asked, garden.pedigree) };
}

async function otherGarden(seed) {
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-calibration-'));
  const programme = await openProgramme(folder, usualSettings);
  try {
    const options = { seed, genets: seedlings };
    await fillWithDemo(programme, { person: null, device: null, via: 'demo' }, {}, options);
    const { truth } = simulateGarden(options);
    const pedigree = await readPedigree(programme.read);
    const traits = [];
    const asked = [];
    for (const trait of demoTraits) {
      const data = await readTraitNotes(programme.read, trait);
      const codeOf = (genet) => data.genets.get(genet)?.code ?? null;
      const evaluation = evaluate(data.notes, pedigree, { trait: data.trait });
      traits.push(held(trait, evaluation, truthOfDemo(trait, data.notes, codeOf, truth)));
      if (asOfBriefs[trait]) asked.push({ ...data, wanted: asOfBriefs[trait], codeOf });
    }
    // Genets with a note of each of the three traits.
    const noted = asked.map(({ notes }) => new Set(notes.map(({ genet }) => genet)));
    const genets = [...noted[0]].filter((genet) => noted.every((set) => set.has(genet)));
    const inTruth = asked.map(({ trait, notes, codeOf, ...rest }) => {
      const value = grownTruth(trait.code, notes, truth);
      return {
        ...rest,
        trait,
        notes,
        truths: new Map(genets.map((genet) => [genet, value(codeOf(genet))])),
      };
    });
    return { traits, briefs: briefsHeld(inTruth, pedigree) };
  } finally {
    await programme.close();
    rmSync(folder, { recursive: true });
  }
}

/** Sums over the noted genets; none where nothing could be estimated. */
function held(trait, evaluation, truth) {
  if (evaluation.fitted === null) return { trait, additive: [], total: [] };
  const { additive, total } = pointsOf(evaluation, truth);
  const sums = (points) => gardenSums(points.filter(({ noted }) => noted));
  return { trait, additive: sums(additive), total: sums(total) };
}
