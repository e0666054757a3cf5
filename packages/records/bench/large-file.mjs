// Reads a CSV file of 300 MB and a spreadsheet of 100,000 rows, and tells time and peak memory. Run after `npm run build`:
//   node packages/records/bench/large-file.mjs
import { createWriteStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openTable, writeCsv, writeXlsx } from '../dist/tables/index.js';

const columns = ['plant', 'date', 'trait', 'value', 'remark', 'observer'].map((header) => ({ header }));

function* notes(count) {
  for (let at = 0; at < count; at++) {
    yield [
      `2027-${String(at % 1000).padStart(3, '0')}-${at % 97}`,
      `2027-0${1 + (at % 9)}-1${at % 10}`,
      'height',
      ((at * 7919) % 2000) / 10,
      at % 5 === 0 ? `seen "twice", bed ${at % 40}` : null,
      at % 2 ? 'Ava' : 'Tom',
    ];
  }
}

async function timed(what, act) {
  const start = performance.now();
  const note = await act();
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  const peak = Math.round(process.resourceUsage().maxRSS / 1024);
  console.log(`${what.padEnd(34)} ${seconds.padStart(6)} s   peak memory so far ${peak} MB   ${note}`);
}

async function count(path) {
  const table = await openTable({ path });
  let rows = 0;
  for await (const { cells } of table.rows) if (cells.length === columns.length) rows++;
  return `${rows} rows`;
}

const megabytes = (path) => `${Math.round(statSync(path).size / 1e6)} MB`;
const folder = mkdtempSync(join(tmpdir(), 'keelrow-large-'));
try {
  const csv = join(folder, 'notes.csv');
  const xlsx = join(folder, 'notes.xlsx');
  await timed('write CSV', async () => {
    await writeCsv(columns, notes(6_300_000), createWriteStream(csv));
    return megabytes(csv);
  });
  await timed('read CSV', () => count(csv));
  await timed('write spreadsheet, 100,000 rows', async () => {
    await writeXlsx([{ name: 'Notes', columns, rows: notes(100_000) }], createWriteStream(xlsx));
    return megabytes(xlsx);
  });
  await timed('read spreadsheet, 100,000 rows', () => count(xlsx));
} finally {
  rmSync(folder, { recursive: true });
}
