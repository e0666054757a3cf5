import { refuseOpenBeyondThisComputer } from '@keelrow/server';
import { Command, Option } from 'commander';
import { lanOf } from '../lan.ts';
import { dataOption, openOrBegin } from '../programme-folder.ts';
import { portOf, serveUntilStopped } from '../serving.ts';

interface ServeOptions {
  readonly data: string;
  readonly files?: string;
  readonly port: string;
  readonly host?: string;
  readonly lan?: boolean;
  readonly open?: boolean;
}

export const serveCommand = (): Command =>
  new Command('serve')
    .description('serve a programme to browsers; begins an empty one where there is none')
    .addOption(dataOption())
    .addOption(
      new Option('--files <folder>', 'folder for photos and profiles, beside a postgres:// address').env(
        'KEELROW_FILES',
      ),
    )
    .option('--port <number>', 'port to listen on; with --lan the two that follow are used too', '4780')
    .option('--host <address>', 'address to listen on (127.0.0.1; with --lan every private network)')
    .option('--lan', 'serve phones in the same network too, encrypted; everybody signs in')
    .addOption(new Option('--open', 'for this computer alone, without sign-in'))
    .action(async (options: ServeOptions) => {
      const port = portOf(options.port);
      const lan = options.lan === true ? lanOf(options.host, port) : null;
      const wanted = {
        host: lan ? '127.0.0.1' : (options.host ?? '127.0.0.1'),
        port,
        open: options.open === true,
      };
      // Before a programme is begun for nothing.
      refuseOpenBeyondThisComputer({ ...wanted, lan: lan !== null });
      const programme = await openOrBegin(options.data, options.files);
      await serveUntilStopped(programme, options.data, { ...wanted, lan });
    });
