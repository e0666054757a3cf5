import type { Random } from '@keelrow/quant';
import { type Day, dayOf } from '../calendar.ts';
import type { Bed } from '../programme/things.ts';
import { type Observer, observers } from '../scenario/people.ts';

export interface Visit {
  readonly day: Day;
  readonly by: Observer;
}

/** The days of a year on which somebody went along a bed with a notebook. */
export interface YearOfVisits {
  readonly visits: readonly Visit[];
  /** The visit on which sizes were measured and spikes counted, and the one in late summer; null if none has been. */
  readonly measuring: Visit | null;
  readonly lateSummer: Visit | null;
}

/** Days between visits by month, March to August, for beds that are looked at closely and for nursery beds. */
const close = [9, 5, 3, 3, 7, 12];
const nursery = [40, 21, 6, 6, 9, 20];

/** Draws visits by bed and year, and remembers them. */
export class Visits {
  private readonly known = new Map<string, YearOfVisits>();
  private readonly random: Random;
  private readonly today: Day;

  constructor(random: Random, today: Day) {
    this.random = random.fork('visits');
    this.today = today;
  }

  of(bed: Bed, year: number): YearOfVisits {
    const key = `${bed.code} in ${year}`;
    let visits = this.known.get(key);
    if (!visits) {
      visits = this.draw(this.random.fork(key), bed, year);
      this.known.set(key, visits);
    }
    return visits;
  }

  private draw(random: Random, bed: Bed, year: number): YearOfVisits {
    const pace = bed.sort === 'seedling' ? nursery : close;
    const days: Day[] = [];
    const away = dayOf(year, 5, 10) + random.integer(50);
    for (let day = dayOf(year, 3, 1) + random.integer(5); day < dayOf(year, 9, 1); ) {
      // A week away each year, and now and then a visit that fell out.
      if (!(day >= away && day < away + 8) && random.uniform() > 0.07) days.push(day);
      const month = Math.min(5, Math.floor((day - dayOf(year, 3, 1)) / 30.6));
      day += pace[month]! + (random.uniform() < 0.25 ? 1 : 0);
    }
    const visits = days
      .filter((day) => day <= this.today)
      .map((day) => ({ day, by: this.person(random, day, year) }));
    const firstFrom = (day: Day): Visit | null => visits.find((visit) => visit.day >= day) ?? null;
    return {
      visits,
      measuring: firstFrom(dayOf(year, 6, 5) + random.integer(12)),
      lateSummer: firstFrom(dayOf(year, 8, 10) + random.integer(10)),
    };
  }

  /** Ines Quillon comes for the summers only. */
  private person(random: Random, day: Day, year: number): Observer {
    const [mara, tobin, ines] = observers;
    const summer = day >= dayOf(year, 5, 15) && day <= dayOf(year, 8, 31);
    const u = random.uniform();
    if (summer) return u < 0.4 ? mara : u < 0.72 ? tobin : ines;
    return u < 0.6 ? mara : tobin;
  }
}
