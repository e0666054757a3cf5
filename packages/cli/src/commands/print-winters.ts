import { type WinterChance, type WinterSurvival, winterSurvival } from '@keelrow/breeding/evaluation';
import { convert, shownUnit } from '@keelrow/breeding/facts';
import { readPlantIndex, readPlantWinters, readSettings } from '@keelrow/records';
import { withProgramme } from '../programme-folder.ts';
import { digits, printTable } from '../telling.ts';

/** Winter survival with the codes of its genets, and the units that the programme speaks. */
interface Winters {
  readonly survival: WinterSurvival;
  readonly units: 'metric' | 'us';
  readonly codes: ReadonlyMap<string, string>;
}

export const readWinters = (data: string): Promise<Winters> =>
  withProgramme(data, async (programme) => {
    const units = (await readSettings(programme.read))?.units ?? 'metric';
    return {
      units,
      survival: winterSurvival(await readPlantWinters(programme.read), units),
      codes: new Map((await readPlantIndex(programme.read)).map(({ id, code }) => [id, code])),
    };
  });

const perCent = (chance: number): string => `${digits(100 * chance, 3)} %`;
const range = ({ low, high }: WinterChance): string => `${perCent(low)} to ${perCent(high)}`;

export function printWinters({ survival, units, codes }: Winters, json: boolean): void {
  const { plantWinters, lost, winters, words, oddsPerDegree, origins, genets } = survival;
  const named = genets.map((genet) => ({ ...genet, code: codes.get(genet.id) ?? genet.id }));
  if (json) {
    console.log(JSON.stringify({ ...survival, genets: named }, null, 2));
    return;
  }
  console.log(`Winters: ${plantWinters} times a plant stood through one, ${lost} were lost`);
  for (const each of words) console.log(`· ${each}`);
  const unit = shownUnit('°C', units);
  if (oddsPerDegree) {
    // So many °C is one degree of the unit shown.
    const degree = convert(1, unit, '°C') - convert(0, unit, '°C');
    const [value, low, high] = [oddsPerDegree.value, oddsPerDegree.low, oddsPerDegree.high].map(
      (odds) => odds ** degree,
    ) as [number, number, number];
    console.log(
      `Each ${unit} colder takes the odds of loss times ${digits(value, 3)} (80% range ${digits(low, 3)} to ${digits(high, 3)}).`,
    );
  }
  console.log();
  printTable(
    ['winter', `lowest ${unit}`, 'stood', 'lost'],
    winters.map(({ winter, minimum, stood, lost: gone }) => [
      winter,
      minimum === null ? '' : digits(convert(minimum, '°C', unit), 3),
      stood,
      gone,
    ]),
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
