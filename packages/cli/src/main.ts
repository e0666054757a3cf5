import { Command, CommanderError, Option } from 'commander';
import { columnsCommand } from './commands/columns.ts';
import { demoCommand } from './commands/demo.ts';
import { estimateCommand } from './commands/estimate.ts';
import { exportCommand } from './commands/export.ts';
import { fitCommand } from './commands/fit.ts';
import { importCommand } from './commands/import.ts';
import { matchCommand } from './commands/match.ts';
import { pedigreeCommand } from './commands/pedigree.ts';
import { serveCommand } from './commands/serve.ts';
import { tellFailure } from './telling.ts';

const program = new Command('keelrow')
  .description('A breeder’s working record and reckoner for hardy garden perennials')
  .version('0.1.0')
  .exitOverride()
  .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, '')) })
  .showHelpAfterError('(see keelrow --help)');

for (const command of [
  demoCommand,
  serveCommand,
  columnsCommand,
  importCommand,
  exportCommand,
  estimateCommand,
  matchCommand,
  fitCommand,
  pedigreeCommand,
]) {
  program.addCommand(
    command().copyInheritedSettings(program).addOption(new Option('--json', 'print JSON for programs')),
  );
}

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : 2;
  else process.exitCode = tellFailure(error, process.argv.includes('--json'));
}
