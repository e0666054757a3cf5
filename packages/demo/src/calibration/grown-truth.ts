import type { TraitNote } from '@keelrow/breeding/evaluation';
import { type Conditions, heightAt, lodgingUnder, sizeUnder, spikeLengthAt } from '../growth/expected.ts';
import type { GardenTruth } from '../truth/truth.ts';

/** Traits of the demo garden that briefs are tried on, with how a person's habit enters a reading. */
const readings = {
  height: { value: (genetic: number, at: Conditions) => heightAt(genetic, sizeUnder(at)), bias: 'times' },
  'spike-length': {
    value: (genetic: number, at: Conditions) => spikeLengthAt(genetic, sizeUnder(at)),
    bias: 'times',
  },
  lodging: { value: lodgingUnder, bias: 'plus' },
} as const;
export type GrownTrait = keyof typeof readings;

/** A grown plant is one from the fourth year on. */
const grownFrom = 4;

/**
 * True values of genets as briefs mean them: what a grown plant in an average season and bed is noted as on average. Seasons,
 * beds and people count by their shares of the notes, of ages those from the fourth year on alone. A genet's value in the fourth
 * season, in the middle bed and year, is not that: people of this garden score high, plants lie over more from their sixth
 * year on, and its seasons need not be middling.
 */
export function grownTruth(
  trait: GrownTrait,
  notes: readonly TraitNote[],
  truth: GardenTruth,
): (code: string) => number {
  const { value, bias } = readings[trait];
  const people = new Map(truth.observers.map((person) => [person.code, person]));
  const signed = notes.flatMap(({ observer }) => people.get(observer ?? '') ?? []);
  const habit = meanOf(signed, ({ lengthBias, scoreBias }) => (bias === 'times' ? lengthBias : scoreBias));
  const ages = notes.flatMap(({ age }) => (age !== null && age >= grownFrom ? [age] : []));
  const placed = notes.flatMap(({ year, bed }) =>
    bed === null ? [] : [{ weather: truth.seasons.get(year)!, place: truth.growthIn(bed) }],
  );
  const ageShares = [...new Set(ages)].map((age) => ({
    age,
    share: ages.filter((other) => other === age).length / ages.length,
  }));
  return (code) => {
    const genetic = truth.total(code, trait);
    const seen = ageShares.reduce(
      (sum, { age, share }) => sum + share * meanOf(placed, (at) => value(genetic, { season: age, ...at })),
      0,
    );
    return bias === 'times' ? seen * habit : seen + habit;
  };
}

const meanOf = <T>(values: readonly T[], of: (value: T) => number): number =>
  values.reduce((sum, value) => sum + of(value), 0) / values.length;
