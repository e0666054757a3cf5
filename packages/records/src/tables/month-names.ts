// English, German and French; accents are taken off before comparing.
const names: readonly (readonly string[])[] = [
  ['january', 'januar', 'janner', 'jaenner', 'janvier'],
  ['february', 'februar', 'feber', 'fevrier'],
  ['march', 'marz', 'maerz', 'mrz', 'mars'],
  ['april', 'avril'],
  ['may', 'mai'],
  ['june', 'juni', 'juin'],
  ['july', 'juli', 'juillet'],
  ['august', 'aout'],
  ['september', 'septembre'],
  ['october', 'oktober', 'octobre'],
  ['november', 'novembre'],
  ['december', 'dezember', 'decembre'],
];

/** Number of a month, 1 to 12, by its name or at least three letters of it; undefined where that is no month, or two. */
export function monthByName(text: string): number | undefined {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/\.$/, '');
  if (plain.length < 3) return undefined;
  const fitting = names.flatMap((spellings, at) =>
    spellings.some((name) => name.startsWith(plain)) ? [at + 1] : [],
  );
  return fitting.length === 1 ? fitting[0] : undefined;
}
