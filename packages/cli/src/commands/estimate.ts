import { type EstimatesReport, evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
import { unitInWords } from '@keelrow/breeding/facts';
import { readPedigree, readSettings, readTraitNotes, readTraits } from '@keelrow/records';
import { Command, Option } from 'commander';
import { dataOption, withProgramme } from '../programme-folder.ts';
import { InputError } from '../telling.ts';
import { printEstimates } from './print-estimates.ts';
import { printWinters, readWinters } from './print-winters.ts';

export const estimateCommand = (): Command =>
  new Command('estimate')
    .description('what each genet truly is, trait by trait, with its doubt')
    .option('--trait <code>', 'one trait; without it every trait that holds numbers or dates')
    .addOption(
      new Option('--winters', 'how plants come through winters instead, by cold and origin').conflicts(
        'trait',
      ),
    )
    .addOption(dataOption())
    .action(async (options: { trait?: string; winters?: boolean; data: string; json?: boolean }) => {
      if (options.winters) return printWinters(await readWinters(options.data), options.json === true);
      const { reports, units } = await withProgramme(options.data, async (programme) => {
        const traits = await readTraits(programme.read);
        const wanted = options.trait
          ? [options.trait]
          : traits.filter(({ estimable, notes }) => estimable && notes > 0).map(({ code }) => code);
        const pedigree = await readPedigree(programme.read);
        const units = (await readSettings(programme.read))?.units ?? 'metric';
        const made: EstimatesReport[] = [];
        for (const code of wanted) {
          const data = await readTraitNotes(programme.read, code);
          if (!data)
            throw new InputError(
              `there is no trait “${code}”`,
              `the traits are ${traits.map((trait) => trait.code).join(', ')}`,
            );
          if (!options.trait && data.notes.length === 0) continue;
          // What is said of the scale names the unit that estimates are shown in.
          const trait = { ...data.trait, unit: unitInWords(data.trait.unit, units) };
          const evaluation = evaluate(data.notes, pedigree, { trait });
          made.push(reportEstimates(evaluation, data.notes, { ...data, units }));
        }
        return { reports: made, units };
      });
      if (options.json) console.log(JSON.stringify(options.trait ? reports[0] : reports, null, 2));
      else for (const report of reports) printEstimates(report, units);
    });
