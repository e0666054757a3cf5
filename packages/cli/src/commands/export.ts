import { isKindName, kindNames } from '@keelrow/breeding/facts';
import { exportFolder, exportKind, exportWorkbook, toFile } from '@keelrow/records';
import { Command, Option } from 'commander';
import { dataOption, withProgramme } from '../programme-folder.ts';
import { InputError } from '../telling.ts';

export const exportCommand = (): Command =>
  new Command('export')
    .description('write records out again; what is exported can be imported')
    .argument('<kind>', 'kind of record, or “all”')
    .requiredOption('--to <path>', 'file to write; with “all” and csv a folder')
    .addOption(
      new Option('--format <format>', 'csv or xlsx; by the path’s ending unless said').choices([
        'csv',
        'xlsx',
      ]),
    )
    .addOption(dataOption())
    .action(
      async (
        kind: string,
        options: { to: string; format?: 'csv' | 'xlsx'; data: string; json?: boolean },
      ) => {
        if (kind !== 'all' && !isKindName(kind))
          throw new InputError(
            `“${kind}” is no kind of record`,
            `the kinds are all, ${kindNames.join(', ')}`,
          );
        if (!options.format && kind !== 'all' && !/\.(csv|xlsx)$/i.test(options.to))
          throw new InputError(
            `“${options.to}” ends neither in .csv nor in .xlsx`,
            'name it so, or say --format',
          );
        const format = options.format ?? (options.to.toLowerCase().endsWith('.xlsx') ? 'xlsx' : 'csv');
        await withProgramme(options.data, async (programme) => {
          if (kind === 'all' && format === 'csv') await exportFolder(programme, options.to);
          else if (kind === 'all') await toFile(options.to, (sink) => exportWorkbook(programme, sink));
          else if (isKindName(kind))
            await toFile(options.to, (sink) => exportKind(programme, kind, format, sink));
        });
        console.log(
          options.json
            ? JSON.stringify({ kind, format, path: options.to })
            : `Wrote ${kind} to ${options.to}.`,
        );
      },
    );
