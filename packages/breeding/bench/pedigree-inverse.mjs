// Times the inverse relationship matrix, inbreeding included, of a simulated programme of 1,000,000 genets. Run after
// `npm run build`, best by way of `npm run bench`:
//   node packages/breeding/bench/pedigree-inverse.mjs [--parents 450] [--family 30] [--genets 1000000] [--generations 20]
// --parents: parents chosen in each generation (a third of them as pollen parents); --family: seedlings of a family, 1 for
// seedlings each with a couple of its own. A tenth of the families are open-pollinated, with three to five possible pollen
// parents whose chances differ from family to family, a share of selfs and outsiders among them.
import { kinshipOf } from '../dist/pedigree/index.js';
import { programmeOfGenets } from './programme-of-genets.mjs';

const option = (name, usual) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};
const settings = {
  genets: option('genets', 1_000_000),
  generations: option('generations', 20),
  parents: option('parents', 450),
  family: option('family', 30),
};
const entries = programmeOfGenets(settings);
const start = performance.now();
const kinship = kinshipOf(entries);
const seconds = (performance.now() - start) / 1000;
console.log(
  JSON.stringify({
    ...settings,
    seconds: Math.round(seconds * 1000) / 1000,
    entriesOfInverse: kinship.inverse.values.length,
    logDeterminant: kinship.logDeterminant,
    meanInbreeding: kinship.inbreeding.reduce((sum, f) => sum + f, 0) / entries.length,
    peakMb: Math.round(process.resourceUsage().maxRSS / 1024),
  }),
);
