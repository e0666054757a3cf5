import { type Profile, readProfile } from '../facts/profile.ts';
import falseIndigo from './false-indigo.json' with { type: 'json' };
import gardenLupin from './garden-lupin.json' with { type: 'json' };
import hardyPerennial from './hardy-perennial.json' with { type: 'json' };

/** The profiles that come with the program; the breeder copies and changes them, and they stay as they are. */
export const shippedProfiles: readonly Profile[] = [falseIndigo, gardenLupin, hardyPerennial].map((json) => {
  const read = readProfile(json);
  if ('problems' in read) throw new Error(`${json.profile}.json: ${read.problems.join('; ')}`);
  return read.profile;
});
