import { type WinterChance, type WinterSurvival, winterSurvival } from '@keelrow/breeding/evaluation';
import { readPlantIndex, readPlantWinters } from '@keelrow/records';
import { withProgramme } from '../programme-folder.ts';
import { digits, printTable } from '../telling.ts';

/** Winter survival with the codes of its genets. */
interface Winters {
  readonly survival: WinterSurvival;
  readonly codes: ReadonlyMap<string, string>;
}

export const readWinters = (data: string): Promise<Winters> =>
  withProgramme(data, async (programme) => ({
    survival: winterSurvival(await readPlantWinters(programme.read)),
    codes: new Map((await readPlantIndex(programme.read)).map(({ id, code }) => [id, code])),
  }));

const perCent = (chance: number): string => `${digits(100 * chance, 3)} %`;
const range = ({ low, high }: WinterChance): string => `${perCent(low)} to ${perCent(high)}`;

export function printWinters({ survival, codes }: Winters, json: boolean): void {
  const { plantWinters, lost, winters, words, oddsPerDegree, origins, genets } = survival;
  const named = genets.map((genet) => ({ ...genet, code: codes.get(genet.id) ?? genet.id }));
  if (json) {
    console.log(JSON.stringify({ ...survival, genets: named }, null, 2));
    return;
  }
  console.log(`Winters: ${plantWinters} times a plant stood through one, ${lost} were lost`);
  for (const each of words) console.log(`· ${each}`);
  if (oddsPerDegree) {
    const { value, low, high } = oddsPerDegree;
    console.log(
      `Each degree colder takes the odds of loss times ${digits(value, 3)} (80% range ${digits(low, 3)} to ${digits(high, 3)}).`,
    );
  }
  console.log();
  printTable(
    ['winter', 'lowest °C', 'stood', 'lost'],
    winters.map(({ winter, minimum, stood, lost: gone }) => [winter, minimum ?? '', stood, gone]),
  );
  if (origins.length === 0) return;
  console.log();
  printTable(
    ['origin', 'comes through', '80% range', 'stood', 'lost'],
    origins.map((one) => [one.origin, perCent(one.chance), range(one), one.stood, one.lost]),
  );
  console.log();
  printTable(
    ['genet', 'comes through', '80% range', 'stood', 'lost'],
    named
      .sort((a, b) => b.chance - a.chance || (a.code < b.code ? -1 : 1))
      .map((one) => [one.code, perCent(one.chance), range(one), one.stood, one.lost]),
  );
}
