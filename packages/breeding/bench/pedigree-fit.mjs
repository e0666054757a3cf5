// Times the full fit, variances by REML and all prediction error variances, of notes on a simulated pedigree: additive, genet,
// plant and year × bed effects, three notes for each genet. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/breeding/bench/pedigree-fit.mjs [--genets 20000]
import { fitModel, seededRandom } from '@keelrow/quant';
import { additiveTerm, kinshipOf } from '../dist/pedigree/index.js';
import { programmeOfGenets } from './programme-of-genets.mjs';

const at = process.argv.indexOf('--genets');
const genets = at < 0 ? 20_000 : Number(process.argv[at + 1]);
const truth = { additive: 4, genet: 2, plant: 1, bedYear: 1, error: 6 };
const seasons = 10;
const generations = 5;

/** Effects by descent: half of each parent's, a parent drawn where several are possible, and Mendelian sampling. */
function additiveEffects(entries, kinship, random) {
  const effects = new Map();
  const drawn = (parents, self) => {
    let u = random.uniform();
    for (const { genet, chance } of parents) {
      u -= chance;
      if (u < 0) return effects.get(genet === 'self' ? self : genet);
    }
    return 0;
  };
  entries.forEach(({ genet, seedParents, pollenParents }, i) => {
    const middle = (drawn(seedParents) + drawn(pollenParents, seedParents[0]?.genet)) / 2;
    effects.set(genet, middle + random.normal(0, Math.sqrt(truth.additive * kinship.mendelian[i])));
  });
  return effects;
}

function notesOn(entries, effects, random) {
  const beds = Math.max(4, Math.round(genets / 300));
  const bedYears = Array.from({ length: beds * seasons }, () => random.normal(0, Math.sqrt(truth.bedYear)));
  const cells = { genet: [], plant: [], year: [], bed: [], y: [] };
  entries.forEach(({ genet }, i) => {
    const own = effects.get(genet) + random.normal(0, Math.sqrt(truth.genet));
    const plants = random.uniform() < 0.75 ? 1 : 3;
    const first = Math.min(seasons - 3, Math.floor((i / entries.length) * seasons));
    for (let p = 0; p < plants; p++) {
      const bed = random.integer(beds);
      const plant = random.normal(0, Math.sqrt(truth.plant));
      for (let k = 0; k < 3 / plants; k++) {
        const year = first + (plants === 1 ? k : random.integer(3));
        const place = bedYears[bed * seasons + year];
        const y = 50 + year + own + plant + place + random.normal(0, Math.sqrt(truth.error));
        cells.genet.push(genet);
        cells.plant.push(`${genet}/${p + 1}`);
        cells.year.push(String(2020 + year));
        cells.bed.push(`bed ${bed + 1}`);
        cells.y.push(y.toFixed(3));
      }
    }
  });
  return { columns: new Map(Object.entries(cells)) };
}

const entries = programmeOfGenets({
  genets,
  generations,
  parents: 40 + Math.round(genets / 100),
  family: 20,
});
const random = seededRandom('pedigree fit');
const kinship = kinshipOf(entries);
const table = notesOn(entries, additiveEffects(entries, kinship, random), random);
const start = performance.now();
const cpu = process.cpuUsage();
const { result } = fitModel(table, {
  response: 'y',
  fixed: ['year'],
  random: ['genet', 'plant', 'year*bed'],
  additive: additiveTerm(kinship, 'genet'),
});
const used = process.cpuUsage(cpu);
console.log(
  JSON.stringify({
    genets,
    notes: result.records,
    equations: result.effects.length + result.fixed.length,
    seconds: (performance.now() - start) / 1000,
    cpuSeconds: (used.user + used.system) / 1e6,
    rounds: result.iterations,
    settled: result.converged,
    variances: Object.fromEntries(result.variances.map(({ term, estimate }) => [term, estimate])),
    truth,
    remlLogLikelihood: result.remlLogLikelihood,
    peakMb: Math.round(process.resourceUsage().maxRSS / 1024),
  }),
);
