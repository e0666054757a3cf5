import { keptAs, type Units } from '../facts/index.ts';
import { type Brief, BriefError, type BriefLimit, type BriefTrait } from './brief.ts';
import { limitInWords } from './words.ts';

/** Throws a BriefError that names every limit that says nothing, or nothing that could be met. */
export function checkBrief(brief: Brief, traits: readonly BriefTrait[], units: Units = 'metric'): void {
  if (brief.limits.length === 0)
    throw new BriefError(
      `the brief “${brief.code}” has no limits yet`,
      'give it at least one: a trait with a least or most value, a colour, classes or weeks',
    );
  const faults = brief.limits.flatMap((limit) => {
    const trait = traits.find(({ code }) => code === limit.trait);
    const fault = trait ? faultOf(limit, trait, units) : 'there is no such trait';
    return fault === null ? [] : [`${trait?.name ?? limit.trait}: ${fault}`];
  });
  faults.push(...contradictions(brief.limits, traits, units));
  if (faults.length > 0)
    throw new BriefError(
      `the brief “${brief.code}” cannot be met as it stands: ${faults.join('; ')}`,
      'mend its limits',
    );
}

function faultOf(limit: BriefLimit, trait: BriefTrait, units: Units): string | null {
  const { atLeast, atMost, classes, colour, colourWithin, fromWeek, toWeek } = limit;
  const numbers = atLeast !== null || atMost !== null;
  const weeks = fromWeek !== null || toWeek !== null;
  const ofClasses = classes !== null && classes.length > 0;
  if (!numbers && !weeks && !ofClasses && colour === null) return 'this limit says nothing that is wanted';
  switch (keptAs[trait.sort]) {
    case 'text':
      return 'notes of this trait are words or pictures, which cannot be held against a limit';
    case 'colour':
      if (colour === null)
        return 'a colour is wanted as CIELAB with the difference allowed, not as numbers, classes or weeks';
      if (colourWithin === null || colourWithin <= 0)
        return 'say how far from the colour is still right (colour_within, CIEDE2000, above 0)';
      return numbers || weeks || ofClasses ? 'a colour has no least, most, classes or weeks' : null;
    case 'class': {
      if (!ofClasses) return `say which classes are wanted, of ${(trait.classes ?? []).join(', ')}`;
      const unknown = classes.filter((name) => !(trait.classes ?? []).includes(name));
      if (unknown.length > 0)
        return `“${unknown[0]}” is not a class of it; the classes are ${(trait.classes ?? []).join(', ')}`;
      return numbers || weeks || colour !== null ? 'a class has no least, most, colour or weeks' : null;
    }
    case 'number':
      if (weeks) return 'it is a number, not a date, so it cannot lie in weeks';
      break;
    case 'date':
      if (fromWeek !== null && toWeek !== null && fromWeek > toWeek)
        return `the weeks run from ${fromWeek} to ${toWeek}; are the two exchanged?`;
      break;
  }
  if (ofClasses || colour !== null) return 'it has no classes or colours';
  if (atLeast !== null && atMost !== null && atLeast > atMost)
    return `${bothEnds(atLeast, atMost, trait, units)} cannot both hold; are the two exchanged?`;
  return null;
}

const bothEnds = (least: number, most: number, trait: BriefTrait, units: Units): string =>
  `at least ${limitInWords(least, trait, units)} and at most ${limitInWords(most, trait, units)}`;

/** Pairs of musts on one trait that no value meets. */
function contradictions(
  limits: readonly BriefLimit[],
  traits: readonly BriefTrait[],
  units: Units,
): string[] {
  const musts = limits.filter(({ must }) => must);
  return [...new Set(musts.map(({ trait }) => trait))].flatMap((code) => {
    const own = musts.filter(({ trait }) => trait === code);
    if (own.length < 2) return [];
    const known = traits.find((trait) => trait.code === code);
    const name = known?.name ?? code;
    const least = Math.max(...own.map(({ atLeast }) => atLeast ?? Number.NEGATIVE_INFINITY));
    const most = Math.min(...own.map(({ atMost }) => atMost ?? Number.POSITIVE_INFINITY));
    // A single limit with its ends exchanged has been told already.
    const within = own.every(
      ({ atLeast, atMost }) => atLeast === null || atMost === null || atLeast <= atMost,
    );
    if (known && least > most && within)
      return [`${name}: two musts ask for ${bothEnds(least, most, known, units)}`];
    const classes = own.flatMap((limit) => (limit.classes ? [limit.classes] : []));
    const common = classes.reduce(
      (left, next) => left.filter((word) => next.includes(word)),
      classes[0] ?? [],
    );
    return classes.length > 1 && common.length === 0
      ? [`${name}: two musts ask for classes that exclude each other`]
      : [];
  });
}
