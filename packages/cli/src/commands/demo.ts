import { usualSettings } from '@keelrow/breeding/facts';
import { countRecords, fillWithDemo, openProgramme } from '@keelrow/records';
import { Command } from 'commander';
import { demoFolder } from '../programme-folder.ts';
import { portOf, serveUntilStopped } from '../serving.ts';
import { countsInWords } from '../telling.ts';

export const demoCommand = (): Command =>
  new Command('demo')
    .description('make the demo garden if it is absent, and open it')
    .option('--data <folder>', 'folder of the demo', demoFolder)
    .option('--port <number>', 'port to listen on', '4780')
    .option('--make-only', 'make the garden and end')
    .action(async (options: { data: string; port: string; makeOnly?: boolean }) => {
      const port = portOf(options.port);
      const programme = await openProgramme(options.data, {
        ...usualSettings,
        name: 'Demo garden',
        kindOfGarden: 'demo',
      });
      const { genets } = await countRecords(programme.read, ['genets']);
      if (genets === 0) {
        console.error('Making the demo garden (an invented nursery; all its data is simulated) …');
        const stored = await fillWithDemo(programme, { person: null, device: null, via: 'demo' });
        console.error(`Stored ${countsInWords(stored)}.`);
      }
      if (options.makeOnly) await programme.close();
      else await serveUntilStopped(programme, options.data, { host: '127.0.0.1', port, open: true });
    });
