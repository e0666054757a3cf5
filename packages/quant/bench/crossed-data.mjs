import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';

/**
 * A crossed design of 200,000 rows, 20,000 × 2,000 levels, drawn by the Park-Miller generator (x ← 16807 x mod 2^31 - 1),
 * normal draws as the sum of twelve uniforms less six, so that any language makes the same file byte for byte.
 *
 * @returns {{ columns: Map<string, string[]> }}
 */
export function bigCrossedTable() {
  const rows = 200_000;
  let state = 20261125;
  const next = () => {
    state = (16807 * state) % 2147483647;
    return state / 2147483647;
  };
  const uniforms = (count) => Float64Array.from({ length: count }, next);
  const normals = (count) =>
    Float64Array.from({ length: count }, () => {
      let sum = 0;
      for (let j = 0; j < 12; j++) sum += next();
      return sum - 6;
    });
  const sEffect = normals(20_000).map((z) => 0.5 * z);
  const dEffect = normals(2000).map((z) => 0.7 * z);
  const s = uniforms(rows).map((u) => Math.floor(u * 20_000) + 1);
  const d = uniforms(rows).map((u) => Math.floor(u * 2000) + 1);
  const t = uniforms(rows).map((u) => Math.floor(u * 3));
  const e = normals(rows).map((z) => 1.2 * z);
  const y = e.map((error, k) => {
    const mean = 3 + (t[k] === 1 ? 0.3 : 0) - (t[k] === 2 ? 0.2 : 0);
    return Math.floor((mean + sEffect[s[k] - 1] + dEffect[d[k] - 1] + error) * 10_000 + 0.5) / 10_000;
  });
  const text = (numbers) => Array.from(numbers, String);
  const cells = Array.from(y, (value) => value.toFixed(4));
  const hash = createHash('md5').update('s,d,t,y\n');
  for (let k = 0; k < rows; k++) hash.update(`${s[k]},${d[k]},${t[k]},${cells[k]}\n`);
  const digest = hash.digest('hex');
  if (digest !== '217a5c4cf32924dfbc0d3bc45b41c0f2')
    throw new Error(`the generated design differs: md5 ${digest}`);
  return {
    columns: new Map([
      ['s', text(s)],
      ['d', text(d)],
      ['t', text(t)],
      ['y', cells],
    ]),
  };
}

/** Reads a CSV file without quoted commas, gzip by its ending. */
export function readColumns(path) {
  const bytes = readFileSync(path);
  const lines = (path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8').trim().split(/\r?\n/);
  const cells = lines.map((line) => line.replaceAll('"', '').split(','));
  return { columns: new Map(cells[0].map((name, c) => [name, cells.slice(1).map((row) => row[c])])) };
}
