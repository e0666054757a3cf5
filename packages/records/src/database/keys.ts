import { createHash, randomBytes } from 'node:crypto';
import { v7 as newId } from 'uuid';
import { act } from '../writing/act.ts';
import { add } from '../writing/add.ts';
import type { Programme } from './programme.ts';

/** What a key is for: to sign in once, to let a phone in once, or to stay signed in. */
export type KeyPurpose = 'sign in once' | 'let a phone in' | 'signed in';

export interface Holder {
  readonly person: string;
  readonly code: string;
  readonly name: string | null;
  readonly role: 'owner' | 'recorder' | 'guest';
  /** Id of the phone that holds the key; null where it is a browser's. */
  readonly device: string | null;
}

const digestOf = (key: string): string => createHash('sha256').update(key).digest('hex');

/** Makes a key for a person, and for a phone of theirs, valid for some minutes; only its digest is stored. */
export async function makeKey(
  programme: Programme,
  person: string,
  purpose: KeyPurpose,
  minutes: number,
  now: Date,
  device: string | null = null,
): Promise<string> {
  const key = randomBytes(24).toString('base64url');
  await programme.write
    .insertInto('keys')
    .values({
      digest: digestOf(key),
      person,
      device,
      purpose,
      made_at: now.toISOString(),
      ends_at: new Date(now.getTime() + minutes * 60_000).toISOString(),
    })
    .execute();
  return key;
}

/** Who holds a key that is still valid; null where nobody does. A key that serves once is used up by this. */
export async function useKey(
  programme: Programme,
  key: string,
  purpose: KeyPurpose,
  now: Date,
): Promise<Holder | null> {
  const digest = digestOf(key);
  const row = await programme.read
    .selectFrom('keys')
    .innerJoin('people', 'people.id', 'keys.person')
    .select([
      'keys.person',
      'keys.device',
      'keys.ends_at',
      'people.code',
      'people.name',
      'people.role',
      'people.left_on',
    ])
    .where('keys.digest', '=', digest)
    .where('keys.purpose', '=', purpose)
    .executeTakeFirst();
  if (!row || (row.ends_at !== null && row.ends_at < now.toISOString())) return null;
  if (purpose !== 'signed in') {
    const { numDeletedRows } = await programme.write
      .deleteFrom('keys')
      .where('digest', '=', digest)
      .executeTakeFirstOrThrow();
    if (Number(numDeletedRows) === 0) return null;
  }
  if (row.left_on !== null && row.left_on <= now.toISOString().slice(0, 10)) return null;
  return {
    person: row.person,
    code: row.code,
    name: row.name,
    role: (row.role ?? 'guest') as Holder['role'],
    device: row.device,
  };
}

/** Takes a key back: signing out. */
export async function revokeKey(programme: Programme, key: string): Promise<void> {
  await programme.write.deleteFrom('keys').where('digest', '=', digestOf(key)).execute();
}

/** The first owner of the programme by code; made where there is none. Returns the id. */
export async function ensureOwner(programme: Programme): Promise<string> {
  const find = () =>
    programme.read
      .selectFrom('people')
      .select('id')
      .where('role', '=', 'owner')
      .where('ended_act', 'is', null)
      .orderBy('code')
      .executeTakeFirst();
  const found = await find();
  if (found) return found.id;
  const id = newId();
  await act(programme, { person: null, device: null, via: 'command', reason: 'first owner' }, (doing) =>
    add(doing, 'people', [{ id, code: 'owner', name: 'Owner', role: 'owner' }]),
  );
  return id;
}
