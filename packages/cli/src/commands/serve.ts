import { refuseOpenBeyondThisComputer } from '@keelrow/server';
import { Command, Option } from 'commander';
import { dataOption, openOrBegin } from '../programme-folder.ts';
import { portOf, serveUntilStopped } from '../serving.ts';

export const serveCommand = (): Command =>
  new Command('serve')
    .description('serve a programme to browsers; begins an empty one where there is none')
    .addOption(dataOption())
    .option('--port <number>', 'port to listen on', '4780')
    .option('--host <address>', 'address to listen on', '127.0.0.1')
    .addOption(new Option('--open', 'for this computer alone, without sign-in'))
    .action(async (options: { data: string; port: string; host: string; open?: boolean }) => {
      const wanted = { host: options.host, port: portOf(options.port), open: options.open === true };
      // Before a programme is begun for nothing.
      refuseOpenBeyondThisComputer(wanted);
      await serveUntilStopped(await openOrBegin(options.data), options.data, wanted);
    });
