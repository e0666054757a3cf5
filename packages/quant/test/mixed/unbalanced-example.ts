import { type Model, seededRandom, type Table } from '../../src/index.ts';

/** An unbalanced table with two classes, a covariate and weights; some cells missing. */
export function simulated(seed: number, rows: number): Table {
  const random = seededRandom(seed);
  const row = Array.from({ length: 7 }, () => random.normal(0, 2));
  const tree = Array.from({ length: 12 }, () => random.normal(0, 1.5));
  const cells: string[][] = [[], [], [], [], [], []];
  for (let k = 0; k < rows; k++) {
    const i = random.integer(7);
    const j = random.integer(12);
    const kind = ['a', 'b', 'c'][random.integer(3)]!;
    const x = 2000 + random.integer(30);
    const w = 1 + random.integer(4);
    const y = 5 + row[i]! + tree[j]! + (kind === 'b' ? 2 : 0) + 0.1 * x + random.normal() / Math.sqrt(w);
    cells[0]!.push(`r${i}`);
    cells[1]!.push(String(j));
    cells[2]!.push(kind);
    cells[3]!.push(String(x));
    cells[4]!.push(String(w));
    cells[5]!.push(k % 13 === 5 ? '' : y.toFixed(4));
  }
  return { columns: new Map(['row', 'tree', 'kind', 'x', 'w', 'y'].map((name, c) => [name, cells[c]!])) };
}

export const MODEL: Model = {
  response: 'y',
  fixed: ['kind', 'x', 'kind*x'],
  numeric: ['x'],
  random: ['row', 'tree'],
  weights: 'w',
};

/** X, y, and V as a function of the variances, written down from the table without the engine. */
export function byHand(table: Table) {
  const column = (name: string) =>
    table.columns.get(name)!.filter((_, k) => table.columns.get('y')![k] !== '');
  const y = column('y').map(Number);
  const x = column('x').map(Number);
  const kind = column('kind');
  const is = (k: number, level: string) => (kind[k] === level ? 1 : 0);
  const design = y.map((_, k) => [1, is(k, 'b'), is(k, 'c'), x[k]!, is(k, 'b') * x[k]!, is(k, 'c') * x[k]!]);
  const w = column('w').map(Number);
  const row = column('row');
  const tree = column('tree');
  const v = (variances: readonly number[]) =>
    y.map((_, k) =>
      y.map(
        (__, l) =>
          (row[k] === row[l] ? variances[0]! : 0) +
          (tree[k] === tree[l] ? variances[1]! : 0) +
          (k === l ? variances[2]! / w[k]! : 0),
      ),
    );
  return { y, design, v, row, tree };
}
