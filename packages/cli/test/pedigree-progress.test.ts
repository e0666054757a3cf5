import { kinshipOf, type PedigreeEntry } from '@keelrow/breeding/pedigree';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { founder } from '../../breeding/test/evaluation/families.ts';
import { pedigreeProgress } from '../src/pedigree-progress.ts';

function told(isTTY: boolean, steps: readonly (readonly [time: number, share: number])[]): string[] {
  const lines: string[] = [];
  let time = 0;
  const tell = pedigreeProgress({ isTTY, write: (text) => lines.push(text) }, () => time);
  for (const [at, share] of steps) {
    time = at;
    tell(share);
  }
  return lines;
}

describe('progress of the kinship of a pedigree', () => {
  it('is silent where it is soon done', () => {
    expect(
      told(true, [
        [0, 0],
        [1000, 0.5],
        [2900, 0.9],
        [3100, 1],
      ]),
    ).toEqual([]);
  });

  it('says beforehand how long it will take and how to stop it, then a line each minute', () => {
    const lines = told(false, [
      [0, 0],
      [4000, 0.01],
      [30_000, 0.08],
      [70_000, 0.2],
      [300_000, 1],
    ]);
    expect(lines[0]).toContain(
      '7 minutes at least, by the first 4 seconds; later generations go slower. Ctrl-C stops it',
    );
    expect(lines.slice(1)).toEqual([
      '1% of the kinship, about 7 minutes left\n',
      '20% of the kinship, about 5 minutes left\n',
      'kinship done\n',
    ]);
  });

  it('writes one line over on a terminal', () => {
    const lines = told(true, [
      [0, 0],
      [4000, 0.5],
      [4100, 0.6],
      [5000, 0.75],
      [6000, 1],
    ]);
    expect(lines.slice(1).map((line) => line.trim())).toEqual([
      '50% of the kinship, about 4 seconds left',
      '75% of the kinship, about 2 seconds left',
      'kinship done',
    ]);
    expect(lines.slice(1).every((line) => line.startsWith('\r'))).toBe(true);
  });

  it('comes from the passes made: it ascends from 0 to 1 and changes nothing', () => {
    const random = seededRandom('mating');
    const entries: PedigreeEntry[] = Array.from({ length: 300 }, (_, i) => {
      const parent = (side: number) =>
        i < 40 ? [] : [{ genet: `g${2 * random.integer(Math.floor(i / 2)) + side}`, chance: 1 }];
      return { ...founder(`g${i}`), seedParents: parent(0), pollenParents: parent(1) };
    });
    const shares: number[] = [];
    const kinship = kinshipOf(entries, undefined, (share) => shares.push(share));
    expect(shares[0]).toBe(0);
    expect(shares.at(-1)).toBeCloseTo(1, 12);
    expect(shares.length).toBeGreaterThan(10);
    shares.slice(1).forEach((share, i) => {
      expect(share).toBeGreaterThan(shares[i]!);
    });
    expect(kinship.inbreeding).toEqual(kinshipOf(entries).inbreeding);
  });
});
