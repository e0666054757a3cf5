import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';

const folder = mkdtempSync(join(tmpdir(), 'keelrow-match-'));
const data = join(folder, 'garden');
afterAll(() => rmSync(folder, { recursive: true }));

/** Twelve genets of two plants each, noted in two years; G1 is the smallest and palest, G12 the tallest and darkest. */
const genets = Array.from({ length: 12 }, (_, i) => `G${i + 1}`);
const files: Readonly<Record<string, readonly string[]>> = {
  traits: [
    'code,name,sort,unit,classes',
    'height,Height,measured,cm,',
    'banner,Banner,coloured,,',
    'habit,Habit,classed,,bare | leafy',
    'spikes,Spikes,counted,,',
  ],
  genets: ['code', ...genets],
  plants: ['code,genet', ...genets.flatMap((genet) => [1, 2].map((k) => `${genet}/${k},${genet}`))],
  notes: [
    'plant,trait,on,value',
    ...genets.flatMap((genet, i) =>
      [1, 2].flatMap((k) =>
        [2020, 2021].flatMap((year) => {
          const off = ((7 * i + 3 * k + year) % 5) - 2;
          return [
            `${genet}/${k},height,${year}-06-01,${80 + 4 * i + off}`,
            `${genet}/${k},banner,${year}-06-01,${70 - 2 * i + off} ${10 + off} -20`,
            `${genet}/${k},habit,${year}-06-01,${i < 6 ? 'bare' : 'leafy'}`,
          ];
        }),
      ),
    ),
  ],
  briefs: [
    'code,name',
    'tall-dark,Tall and dark',
    'empty,Nothing yet',
    'crossed,Against itself',
    'huge,Too much',
  ],
  'brief-limits': [
    'brief,trait,must,weight,at_least,at_most,classes,colour,colour_within',
    'tall-dark,height,yes,,100,,,,',
    'tall-dark,banner,yes,,,,,52 10 -20,6',
    'tall-dark,habit,no,2,,,leafy,,',
    'tall-dark,spikes,no,1,4,,,,',
    'crossed,height,yes,,100,,,,',
    'crossed,height,yes,,,80,,,',
    'huge,height,yes,,9999,,,,',
  ],
};

beforeAll(async () => {
  for (const [kind, lines] of Object.entries(files)) {
    const file = join(folder, `${kind}.csv`);
    writeFileSync(file, `${lines.join('\n')}\n`);
    const { status, err } = await runKeelrow(['import', kind, file, '--data', data, '--begin']);
    expect({ kind, status, err }).toEqual({ kind, status: 0, err: '' });
  }
}, 60_000);

describe('keelrow match', () => {
  it('ranks living genets by their chance, with the limits, what to heed and what stands in the way', async () => {
    const { status, out, err } = await runKeelrow(['match', 'tall-dark', '--data', data, '--top', '3']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^Tall and dark \(tall-dark\)\nmust: Height at least 100 cm\n/);
    expect(out).toContain('must: Banner within 6 of the colour L 52 10 −20');
    expect(out).toContain('wish, weight 1: Spikes at least 4 (cannot be told yet)');
    expect(out).toContain('· A wish that is not counted: Spikes at least 4. ');
    expect(out).toMatch(/genet +name +chance +wishes met +notes +what stands in the way/);
    expect(out).toMatch(/… and 9 more\n$/);
  });

  it('gives all of it as JSON, the same on every run', async () => {
    const run = () => runKeelrow(['match', 'tall-dark', '--data', data, '--json']);
    const { out } = await run();
    const match = JSON.parse(out);
    expect(match.plants).toHaveLength(12);
    const chances: number[] = match.plants.map(({ chance }: { chance: number }) => chance);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
    expect(chances[0]).toBeGreaterThan(0.8);
    const smallest = match.plants.find(({ code }: { code: string }) => code === 'G1');
    expect(smallest.chance).toBeLessThan(0.01);
    expect(smallest.inTheWay).toMatch(/^Height too small: about 8\d/);
    expect((await run()).out).toBe(out);
  });

  it('says of a limit beyond all notes that none meets it', async () => {
    const { status, out } = await runKeelrow(['match', 'huge', '--data', data]);
    expect(status).toBe(0);
    expect(out).toMatch(
      /· No plant was ever noted so: “Height at least 9999 cm”, while the 48 notes of Height go /,
    );
  });

  it('refuses a wrong brief with the list, an empty one and one that contradicts itself', async () => {
    const wrong = await runKeelrow(['match', 'short', '--data', data]);
    expect(wrong).toEqual({
      status: 2,
      out: '',
      err: 'there is no brief “short”\n→ the briefs are crossed, empty, huge, tall-dark\n',
    });
    const empty = await runKeelrow(['match', 'empty', '--data', data]);
    expect(empty.status).toBe(2);
    expect(empty.err).toContain('the brief “empty” has no limits yet');
    const crossed = await runKeelrow(['match', 'crossed', '--data', data]);
    expect(crossed.status).toBe(2);
    expect(crossed.err).toContain('Height: two musts ask for at least 100 cm and at most 80 cm');
    const top = await runKeelrow(['match', 'tall-dark', '--data', data, '--top', 'few']);
    expect(top).toMatchObject({ status: 2, out: '' });
  });
});
