import { usualPatterns } from '@keelrow/breeding/facts';
import { dateText } from './calendar.ts';
import { allNotes } from './emit/note-rows.ts';
import { allRecords, allWithdrawals } from './emit/records.ts';
import type { SimulatedCorrection, SimulatedGarden, SimulateOptions } from './garden.ts';
import { runProgramme, scaleOf } from './simulate.ts';
import { truthOf } from './truth/truth.ts';

/**
 * Simulates the breeding garden of an invented nursery, with everything that its people wrote down and, apart from
 * it, what was so. Docs: docs/demo-garden.md.
 *
 * @throws RangeError where an option lies outside what a garden can be
 */
export function simulateGarden(options: SimulateOptions): SimulatedGarden {
  const scale = scaleOf(options);
  const { programme, accessions } = runProgramme(options.seed, scale);
  return {
    today: dateText(scale.today),
    settings: {
      name: 'Ousel Bank lupins',
      timeZone: 'America/Los_Angeles',
      units: 'metric',
      codePatterns: usualPatterns,
      kindOfGarden: 'demo',
    },
    records: { [Symbol.iterator]: () => allRecords(programme, accessions) },
    corrections: {
      *[Symbol.iterator](): Generator<SimulatedCorrection> {
        for (const { row, replacedBy } of allNotes(programme, programme.random.fork('rows of notes'))) {
          if (replacedBy) yield { kind: 'notes', replaces: row.id, row: replacedBy };
        }
      },
    },
    withdrawals: { [Symbol.iterator]: () => allWithdrawals(programme) },
    truth: truthOf(programme),
  };
}
