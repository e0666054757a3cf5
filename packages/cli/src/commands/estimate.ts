import { type EstimatesReport, evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
import { keptAs } from '@keelrow/breeding/facts';
import { readTraitNotes, readTraits } from '@keelrow/records';
import { Command } from 'commander';
import { dataOption, withProgramme } from '../programme-folder.ts';
import { digits, InputError, printTable } from '../telling.ts';

export const estimateCommand = (): Command =>
  new Command('estimate')
    .description('what each genet truly is, trait by trait, with its doubt')
    .option('--trait <code>', 'one trait; without it every trait that holds numbers or dates')
    .addOption(dataOption())
    .action(async (options: { trait?: string; data: string; json?: boolean }) => {
      const reports = await withProgramme(options.data, async (programme) => {
        const traits = await readTraits(programme.read);
        const wanted = options.trait
          ? [options.trait]
          : traits.filter(({ estimable, notes }) => estimable && notes > 0).map(({ code }) => code);
        const made: EstimatesReport[] = [];
        for (const code of wanted) {
          const data = await readTraitNotes(programme.read, code);
          if (!data)
            throw new InputError(
              `there is no trait “${code}”`,
              `the traits are ${traits.map((trait) => trait.code).join(', ')}`,
            );
          if (!options.trait && data.notes.length === 0) continue;
          made.push(reportEstimates(evaluate(data.notes), data.notes, data));
        }
        return made;
      });
      if (options.json) console.log(JSON.stringify(options.trait ? reports[0] : reports, null, 2));
      else for (const report of reports) print(report);
    });

const dayAndMonth = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** A day of the year as people say it: 160 is 9 Jun (of a year without a leap day). */
const dayInWords = (day: number): string => dayAndMonth.format(Date.UTC(2001, 0, Math.round(day)));

function print(report: EstimatesReport): void {
  const { trait, notes, genets, estimates } = report;
  const isDate = keptAs[trait.sort] === 'date';
  const value = (number: number) => (isDate ? dayInWords(number) : digits(number));
  const unit = isDate ? 'errors in days' : trait.unit;
  console.log(`${trait.name}${unit ? ` (${unit})` : ''}: ${notes} notes on ${genets} genets`);
  if (report.tookIntoAccount.length > 0)
    console.log(`Taken into account: ${report.tookIntoAccount.join('; ')}.`);
  for (const words of [...report.couldNotSeparate, ...report.heed]) console.log(`· ${words}`);
  if (estimates.length > 0) {
    console.log();
    printTable(
      ['', 'genet', 'name', 'estimate', 'se', '80% range', 'notes', 'plain mean'],
      estimates.map(({ code, name, standard, estimate, se, low, high, notes: own, mean }, index) => [
        index + 1,
        standard ? `${code} (standard)` : code,
        name ?? '',
        value(estimate),
        digits(se, 3),
        `${value(low)} to ${value(high)}`,
        own,
        mean === null ? '' : value(mean),
      ]),
    );
  }
  console.log();
}
