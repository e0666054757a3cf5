import type { Row } from '@keelrow/breeding/facts';

/** How a person's notes depart from what is there. */
export interface Observer {
  readonly code: string;
  /** Measured lengths and counts are multiplied by this on average. */
  readonly lengthBias: number;
  /** Added to scores on average. */
  readonly scoreBias: number;
  /** How much larger the person's errors are than a careful recorder's. */
  readonly scatter: number;
  /** Lengths are rounded to this many centimetres. */
  readonly roundsTo: number;
  /** Chance of a slip of the pencil in a number. */
  readonly slips: number;
}

export const observers: readonly [Observer, Observer, Observer] = [
  { code: 'MK', lengthBias: 1, scoreBias: 0, scatter: 1, roundsTo: 1, slips: 0.003 },
  { code: 'TA', lengthBias: 1.035, scoreBias: 0.6, scatter: 1.1, roundsTo: 5, slips: 0.005 },
  { code: 'IQ', lengthBias: 0.975, scoreBias: -0.3, scatter: 1.7, roundsTo: 1, slips: 0.012 },
];

export const people: readonly Row<'people'>[] = [
  { code: 'MK', name: 'Mara Kestrel', role: 'owner' },
  { code: 'TA', name: 'Tobin Ashdale', role: 'recorder', remark: 'reads the stick to the nearest five' },
  { code: 'IQ', name: 'Ines Quillon', role: 'recorder', remark: 'summers only' },
];

export const devices = (firstYear: number): readonly Row<'devices'>[] => [
  { code: 'office', person: 'MK', let_in_on: `${firstYear}-01-07` },
  { code: 'phone-mara', person: 'MK', let_in_on: `${firstYear}-03-02` },
  { code: 'phone-tobin', person: 'TA', let_in_on: `${firstYear}-03-02`, remark: 'cracked glass' },
  { code: 'phone-ines', person: 'IQ', let_in_on: `${firstYear + 1}-05-04` },
];
