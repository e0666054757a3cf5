import type { EstimatesReport, Share } from '@keelrow/breeding/evaluation';
import { keptAs, measureOf, type Units } from '@keelrow/breeding/facts';
import { digits, printTable } from '../telling.ts';

const dayAndMonth = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** A day of the year as people say it: 160 is 9 Jun (of a year without a leap day). */
const dayInWords = (day: number): string => dayAndMonth.format(Date.UTC(2001, 0, Math.round(day)));

const share = ({ value, se }: Share): string =>
  `${digits(value, 2)}${se === null ? '' : ` ± ${digits(se, 2)}`}`;

const counted = (number: number, one: string): string => `${number} ${one}${number === 1 ? '' : 's'}`;

const signed = (value: number): string => `${value > 0 ? '+' : ''}${digits(value, 3)}`;

/** Errors that differ by less look alike in print. */
const worthTelling = 1.01;

/** Prints the estimates of one trait for people, in the units that the programme speaks. */
export function printEstimates(report: EstimatesReport, units: Units): void {
  const { trait, notes, genets, estimates, kinship } = report;
  const isDate = keptAs[trait.sort] === 'date';
  const { unit: shownIn, toShown, spanToShown } = measureOf(trait.unit, units);
  const value = (number: number) => (isDate ? dayInWords(number) : digits(toShown(number)));
  const unit = isDate ? 'errors in days' : shownIn;
  console.log(
    `${trait.name}${unit ? ` (${unit})` : ''}: ${counted(notes, 'note')} on ${counted(genets, 'genet')}`,
  );
  if (report.tookIntoAccount.length > 0)
    console.log(`Taken into account: ${report.tookIntoAccount.join('; ')}.`);
  const said = new Set([
    ...kinship.words.filter((words) => !words.startsWith('Taken into account')),
    ...report.couldNotSeparate,
    ...(report.scale.words ? [report.scale.words] : []),
    ...report.heed,
  ]);
  for (const words of said) console.log(`· ${words}`);
  for (const words of sharesInWords(report)) console.log(words);
  if (estimates.some(({ se, seInDoubt }) => seInDoubt > worthTelling * se))
    console.log(
      'se is the standard error at the best variances; the 80% range is wider, as it allows for the doubt about these.',
    );
  if (estimates.length > 0) {
    console.log();
    printTable(
      [
        '',
        'genet',
        'name',
        'estimate',
        'se',
        '80% range',
        ...(kinship.used ? ['as a parent'] : []),
        'reliability',
        'notes',
        'plain mean',
      ],
      estimates.map((estimate, index) => [
        index + 1,
        estimate.standard ? `${estimate.code} (standard)` : estimate.code,
        estimate.name ?? '',
        value(estimate.estimate),
        digits(spanToShown(estimate.se), 3),
        `${value(estimate.low)} to ${value(estimate.high)}`,
        ...(kinship.used ? [estimate.breeding ? signed(spanToShown(estimate.breeding.effect)) : ''] : []),
        estimate.reliability === null ? '' : digits(estimate.reliability, 2),
        estimate.notes,
        estimate.mean === null ? '' : value(estimate.mean),
      ]),
    );
  }
  console.log();
}

function sharesInWords({ heritability, repeatability, accuracy }: EstimatesReport): string[] {
  const parts = [
    ...(heritability
      ? [`parents hand on ${share(heritability)} of the differences between notes (heritability)`]
      : []),
    ...(repeatability ? [`${share(repeatability)} lie between genets (repeatability)`] : []),
    ...(accuracy === null
      ? []
      : [`estimates should follow the truth with a correlation of ${digits(accuracy, 2)}`]),
  ];
  return parts.length > 0 ? [`${parts.join('; ')}.`.replace(/^./, (first) => first.toUpperCase())] : [];
}
