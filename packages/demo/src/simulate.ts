import { seededRandom } from '@keelrow/quant';
import { dayOf } from './calendar.ts';
import { makeCrosses } from './programme/crossing.ts';
import { type Accession, bringInFounders } from './programme/founders.ts';
import { plantOutClones, renewStandards, stickCuttings } from './programme/increase.ts';
import { exchangeLabels, findOutLabels } from './programme/labels.ts';
import { Programme, type Scale } from './programme/programme.ts';
import { gatherSeed, raiseSeedlings } from './programme/raising.ts';
import { review } from './programme/reviewing.ts';
import { growSport } from './programme/sports.ts';
import { findVolunteers } from './programme/volunteers.ts';
import { winterLosses } from './programme/winter.ts';

/** Lets the invented programme run from its first spring to the day that it calls today. */
export function runProgramme(seed: number, scale: Scale): { programme: Programme; accessions: Accession[] } {
  const programme = new Programme(seededRandom(seed).fork('garden'), scale);
  const accessions = bringInFounders(programme);
  for (let year = scale.startYear; year < scale.startYear + scale.years; year++) {
    winterLosses(programme, year);
    stickCuttings(programme, year);
    raiseSeedlings(programme, year);
    exchangeLabels(programme, year);
    plantOutClones(programme, year);
    renewStandards(programme, year);
    growSport(programme, year);
    findVolunteers(programme, year);
    makeCrosses(programme, year);
    findOutLabels(programme, year);
    gatherSeed(programme, year);
    review(programme, year);
  }
  return { programme, accessions };
}

/** The usual garden: about 1,500 seedlings in eight years that end in June 2026. */
export function scaleOf({
  genets = 1500,
  years = 8,
  startYear = 2019,
}: {
  genets?: number;
  years?: number;
  startYear?: number;
}): Scale {
  const whole = (value: number, least: number, most: number, what: string) => {
    if (!Number.isInteger(value) || value < least || value > most) {
      throw new RangeError(
        `${what} is ${value}; a simulated garden takes a whole number from ${least} to ${most}`,
      );
    }
  };
  whole(genets, 50, 1_000_000, 'the number of seedlings');
  whole(years, 3, 30, 'the number of years');
  whole(startYear, 1990, 2100, 'the first year');
  return {
    startYear,
    years,
    today: dayOf(startYear + years - 1, 6, 10),
    seedlings: genets,
    times: genets / 1500,
  };
}
