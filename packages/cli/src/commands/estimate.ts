import { type EstimatesReport, evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
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
          made.push(reportEstimates(evaluate(data.notes), data.notes, data));
        }
        return made;
      });
      if (options.json) console.log(JSON.stringify(options.trait ? reports[0] : reports, null, 2));
      else for (const report of reports) print(report);
    });

function print(report: EstimatesReport): void {
  const { trait, notes, genets, estimates } = report;
  console.log(`${trait.name}${trait.unit ? ` (${trait.unit})` : ''}: ${notes} notes on ${genets} genets`);
  if (report.tookIntoAccount.length > 0)
    console.log(`Taken into account: ${report.tookIntoAccount.join('; ')}.`);
  for (const words of [...report.couldNotSeparate, ...report.heed]) console.log(`· ${words}`);
  if (estimates.length > 0) {
    console.log();
    printTable(
      ['', 'genet', 'name', 'estimate', '± se', '80% range', 'notes', 'plain mean'],
      estimates.map(({ code, name, standard, estimate, se, low, high, notes: own, mean }, index) => [
        index + 1,
        standard ? `${code} (standard)` : code,
        name ?? '',
        digits(estimate),
        digits(se, 3),
        `${digits(low)} to ${digits(high)}`,
        own,
        mean === null ? '' : digits(mean),
      ]),
    );
  }
  console.log();
}
