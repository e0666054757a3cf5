import { type BriefMatch, matchFromNotes } from '@keelrow/breeding/brief';
import { RecordsError, readBriefData } from '@keelrow/records';
import { Command } from 'commander';
import { dataOption, withProgramme } from '../programme-folder.ts';
import { InputError, printTable } from '../telling.ts';

export const matchCommand = (): Command =>
  new Command('match')
    .description('living genets ranked by the chance that they truly meet a brief')
    .argument('<brief>', 'short name of the brief')
    .option('--top <number>', 'how many genets to print; all unless given')
    .addOption(dataOption())
    .action(async (brief: string, options: { top?: string; data: string; json?: boolean }) => {
      const top = options.top === undefined ? Number.POSITIVE_INFINITY : Number(options.top);
      if (!(top >= 1)) throw new InputError(`--top is ${options.top}, which is no number of genets`);
      const match = await withProgramme(options.data, async (programme) => {
        const data = await readBriefData(programme.read, brief).catch(asInput);
        return matchFromNotes(data, { onProgress: tellSteps() });
      });
      if (options.json) console.log(JSON.stringify(match, null, 2));
      else print(match, top);
    });

/** A brief that is not there is a wrong argument. */
const asInput = (error: unknown): never => {
  throw error instanceof RecordsError && error.because === 'absent'
    ? new InputError(error.message, error.remedy)
    : error;
};

/** Tells each step once, on standard error, where somebody is looking. */
function tellSteps(): (share: number | null, step: string) => void {
  let last = '';
  return (_, step) => {
    if (process.stderr.isTTY && step !== last) console.error(`${step} …`);
    last = step;
  };
}

const percent = (chance: number | null): string =>
  chance === null ? '' : chance > 0 && chance < 0.005 ? '<1%' : `${Math.round(100 * chance)}%`;

function print({ brief, limits, plants, heed }: BriefMatch, top: number): void {
  console.log(`${brief.name} (${brief.code})`);
  for (const { must, weight, words, unknown } of limits)
    console.log(
      `${must ? 'must' : `wish, weight ${weight}`}: ${words}${unknown === null ? '' : ' (cannot be told yet)'}`,
    );
  for (const words of [...limits.flatMap(({ beyond }) => beyond ?? []), ...heed]) console.log(`· ${words}`);
  console.log();
  const wishes = plants.some((plant) => plant.wishes !== null);
  printTable(
    ['', 'genet', 'name', 'chance', ...(wishes ? ['wishes met'] : []), 'notes', 'what stands in the way'],
    plants
      .slice(0, top)
      .map((plant, index) => [
        index + 1,
        plant.standard ? `${plant.code} (standard)` : plant.code,
        plant.name ?? '',
        percent(plant.chance),
        ...(wishes ? [percent(plant.wishes)] : []),
        plant.notes,
        plant.inTheWay,
      ]),
  );
  if (plants.length > top) console.log(`… and ${plants.length - top} more`);
}
