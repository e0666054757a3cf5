import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './steps.mjs';

const worlds = {
  model: 'the model’s own world',
  other: 'a world that differs',
};
const percent = ({ value, se }) => `${(100 * value).toFixed(1)} ± ${(100 * se).toFixed(1)}%`;
const number =
  (digits) =>
  ({ value, se }) =>
    `${value.toFixed(digits)} ± ${se.toFixed(digits)}`;
const row = (cells) => `| ${cells.join(' | ')} |`;
const table = (head, rows) => [row(head), row(head.map(() => '---')), ...rows.map(row)].join('\n');

/** The two worlds side by side, all traits together. */
function sideBySide(gardens, pooled) {
  const told = Object.keys(worlds).flatMap((world) =>
    ['additive', 'total'].map((kind) => together(gardens, world, kind, pooled)),
  );
  const line = (name, of) => [name, ...told.map((each) => (each ? of(each) : '–'))];
  const generations = [0, 1, 2, 3];
  const biased = (generation) => (each) => {
    const found = each.bias.find((bias) => bias.generation === generation);
    return found ? number(3)(found) : '–';
  };
  return table(
    ['', ...Object.values(worlds).flatMap((world) => [`${world}: additive`, `${world}: total`])],
    [
      line('gardens; ranges', ({ gardens: count, ranges }) => `${count}; ${ranges.toLocaleString('en')}`),
      line('80% ranges that hold the truth', ({ held }) => percent(held)),
      line('correlation of estimate and truth', ({ correlation }) => number(3)(correlation)),
      line('accuracy promised', ({ promised }) => number(3)(promised)),
      line('slope of truth on estimate', ({ slope }) => number(3)(slope)),
      ...generations.map((generation) =>
        line(
          generation === 0 ? 'estimate − truth: founders' : `generation ${generation}`,
          biased(generation),
        ),
      ),
    ],
  );
}

function together(gardens, world, kind, pooled) {
  const own = gardens.filter((garden) => garden.world === world);
  const sums = own.map(({ traits }) => traits.map((trait) => trait[kind]).filter(({ length }) => length > 0));
  return sums.length > 1 ? pooled(sums) : null;
}

function traitByTrait(gardens, pooled) {
  const rows = [];
  for (const [world, words] of Object.entries(worlds)) {
    const own = gardens.filter((garden) => garden.world === world);
    for (const { trait } of own[0]?.traits ?? []) {
      const of = (kind) => {
        const sums = own.map(({ traits }) => traits.find((each) => each.trait === trait)[kind]);
        const known = sums.filter(({ length }) => length > 0).map((each) => [each]);
        return known.length > 1 ? pooled(known) : null;
      };
      const [additive, total] = [of('additive'), of('total')];
      const both = (each) =>
        each ? `${each.correlation.value.toFixed(2)} (${each.promised.value.toFixed(2)})` : '–';
      rows.push([
        words,
        trait,
        total.ranges.toLocaleString('en'),
        additive ? percent(additive.held) : '–',
        percent(total.held),
        both(additive),
        both(total),
        number(2)(total.slope),
      ]);
    }
  }
  const head = [
    'world',
    'trait',
    'ranges',
    'held: additive',
    'held: total',
    'correlation (promised): additive',
  ];
  return table([...head, 'total', 'slope: total'], rows);
}

/** Of plants that were told a chance, how many truly meet a brief that this share of the genets seems to meet. */
function chancesOfBriefs(gardens, pooledBins, share) {
  const told = Object.keys(worlds).map((world) =>
    pooledBins(
      gardens
        .filter((garden) => garden.world === world)
        .map(({ briefs }) => briefs.find((brief) => brief.share === share).bins),
    ),
  );
  const range = (i) => `${100 * told[0][i].from} to ${100 * (told[0][i + 1]?.from ?? 1)}%`;
  return table(
    ['told', ...Object.values(worlds).flatMap((words) => [`${words}: genets`, 'mean told', 'truly meet it'])],
    told[0].map((_, i) => [
      range(i),
      ...told.flatMap((bins) => {
        const { plants, told: mean, met } = bins[i];
        return plants > 0
          ? [plants.toLocaleString('en'), `${(100 * mean).toFixed(1)}%`, percent(met)]
          : ['0', '–', '–'];
      }),
    ]),
  );
}

/** `pooled` and `pooledBins` are the demo package's. */
export const calibrationTables = (gardens, { pooled, pooledBins }) =>
  [
    'Both worlds side by side, all traits together:',
    sideBySide(gardens, pooled),
    'Trait by trait:',
    traitByTrait(gardens, pooled),
    'Chances to meet a brief that asks for the better half, as told, in each of three traits:',
    chancesOfBriefs(gardens, pooledBins, 0.5),
    'Chances to meet one that asks not to be in the worst quarter:',
    chancesOfBriefs(gardens, pooledBins, 0.75),
  ].join('\n\n');

const marks = ['<!-- calibration: made by npm run calibrate -->', '<!-- end of calibration -->'];

/** Puts the tables between their marks in the list of checks; returns whether the marks were there. */
export function writeTables(tables, date) {
  const path = join(root, 'docs/checks.md');
  const page = readFileSync(path, 'utf8');
  const [start, end] = marks.map((mark) => page.indexOf(mark));
  if (start < 0 || end < start) return false;
  const made = `${marks[0]}\n\nMade on ${date}.\n\n${tables}\n\n`;
  writeFileSync(path, page.slice(0, start) + made + page.slice(end));
  return true;
}
