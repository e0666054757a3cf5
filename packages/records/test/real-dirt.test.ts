import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { onBothStores } from '../../../tests/support/stores.ts';
import { it } from 'vitest';
import { openImport, takeIn } from '../src/index.ts';
const folder = fileURLToPath(new URL('../../../../shared/reference/realdata/', import.meta.url));
const by = { person: null, device: null, via: 'import' as const };
onBothStores('x', (store) => {
  it('explore', async () => {
    if (store.backend !== 'sqlite') return;
    for (const [f, w] of [
      ['messy_fruit_bloom_cp1252/adamedor_sub.csv', { yearDay: '07-01', make: ['genets', 'places'] }],
      ['germination_sylvan_seeds/TBMF_Database_raw.csv', { yearDay: '07-01', make: ['plants', 'places'] }],
    ] as const) {
      const p = await store.make();
      const t = performance.now();
      try {
        const part = await openImport(p, folder + f, w);
        console.log(f, part.plan.kind, part.table.headers.map((h, i) => `${h}=${JSON.stringify(part.plan.columns[i])}`).join(' | ').slice(0, 5500));
          const out = await takeIn(p, [await openImport(p, folder + f, w)], { by, store: true });
          console.log(JSON.stringify({ ...out, first: out.first.slice(0, 1), problems: out.problems.slice(0, 8), missing: out.missing.map((m) => [m.kind, m.count, m.codes.slice(0, 3)]) }), Math.round(performance.now() - t));
      } catch (e) { console.log(f, String(e)); }
    }
  });
});
