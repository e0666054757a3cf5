import type { AnyRow } from '@keelrow/breeding/facts';
import { shippedProfiles } from '@keelrow/breeding/profiles';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';
import { type Act, type ActBy, act } from '../writing/act.ts';
import { add } from '../writing/add.ts';
import { change } from '../writing/change.ts';
import { type Holder, makeKey, useKey } from './keys.ts';
import type { Programme } from './programme.ts';

/** Minutes within which a phone uses the key that lets it in. */
const minutesToLetIn = 10;

/** Days for which a phone stays let in after it was last seen: over a winter and the spring after it. */
export const daysLetIn = 400;

/** A phone that was let in. */
export interface PhoneLetIn {
  readonly id: string;
  readonly code: string;
  /** Code of the person who carries it. */
  readonly person: string;
  readonly role: Holder['role'];
  readonly letInOn: string;
  /** Server's clock, UTC, ISO 8601. */
  readonly lastSeenAt: string | null;
  readonly shutOutOn: string | null;
}

export interface PersonListed {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly role: Holder['role'] | null;
  readonly leftOn: string | null;
}

/** The trait by which a plant's label is noted as lost, wrong or unreadable, as the profiles ship it. */
function labelTrait(): AnyRow & { code: string } {
  const { source: _, ...trait } = shippedProfiles
    .flatMap(({ traits }) => traits)
    .find(({ code }) => code === 'label')!;
  return trait as AnyRow & { code: string };
}

/**
 * Makes a key that lets one phone of a person in, once, within ten minutes; makes the trait for labels where the
 * programme has none. Throws RecordsError: no such person, or one who has left.
 */
export async function phoneKey(
  programme: Programme,
  by: ActBy,
  person: string,
  now: Date,
): Promise<{ key: string; until: string }> {
  const found = await programme.read
    .selectFrom('people')
    .select(['code', 'left_on'])
    .where('id', '=', person)
    .where('ended_act', 'is', null)
    .executeTakeFirst();
  if (!found)
    throw new RecordsError('absent', 'there is no such person', 'choose one of the list, or add one');
  if (found.left_on !== null && found.left_on <= now.toISOString().slice(0, 10)) {
    throw new RecordsError(
      'conflict',
      `${found.code} left on ${found.left_on}`,
      'take out the day in the person’s record, or choose another person',
    );
  }
  await ensureLabelTrait(programme, by);
  const key = await makeKey(programme, person, 'let a phone in', minutesToLetIn, now);
  return { key, until: new Date(now.getTime() + minutesToLetIn * 60_000).toISOString() };
}

/** Makes the trait by which labels are noted as lost, wrong or unreadable where the programme has none of its code. */
export async function ensureLabelTrait(programme: Programme, by: ActBy): Promise<void> {
  const label = labelTrait();
  const isThere = (db: Kysely<Tables>) =>
    db.selectFrom('traits').select('id').where('code', '=', label.code).executeTakeFirst();
  if (await isThere(programme.read)) return;
  await act(programme, { ...by, reason: 'first walk' }, async (doing) => {
    if (!(await isThere(doing.tx))) await add(doing, 'traits', [label]);
  });
}

/**
 * Lets a phone in by its key: makes the device and the key that it keeps. named: what the phone calls itself.
 * Null where the key is not valid (any more).
 */
export async function letPhoneIn(
  programme: Programme,
  key: string,
  named: string | null,
  now: Date,
): Promise<{ holder: Holder; key: string } | null> {
  const holder = await useKey(programme, key, 'let a phone in', now);
  if (!holder) return null;
  const by: ActBy = { person: holder.person, device: null, via: 'phone', reason: 'let in' };
  const device = await act(programme, by, async (doing) => {
    const row = {
      code: await freeCode(doing, `phone-${holder.code}`),
      person: holder.person,
      let_in_on: doing.today,
      remark: named,
    };
    return (await add(doing, 'devices', [row]))[0]!;
  });
  const minutes = daysLetIn * 24 * 60;
  const stay = await makeKey(programme, holder.person, 'signed in', minutes, now, device);
  return { holder: { ...holder, device }, key: stay };
}

async function freeCode({ tx }: Act, wanted: string): Promise<string> {
  const rows = await tx
    .selectFrom('devices')
    .select('code')
    .where('code', '>=', wanted)
    .where('code', '<', `${wanted}\u{10ffff}`)
    .execute();
  const taken = new Set(rows.map(({ code }) => code));
  let code = wanted;
  for (let serial = 2; taken.has(code); serial++) code = `${wanted}-${serial}`;
  return code;
}

/** Ends a phone's keys; what it handed over stays. One that was shut out before stays so from its first day. */
export async function shutPhoneOut(programme: Programme, by: ActBy, device: string): Promise<void> {
  await act(programme, { ...by, reason: by.reason ?? 'shut out' }, async (doing) => {
    const found = await doing.tx
      .selectFrom('devices')
      .select('shut_out_on')
      .where('id', '=', device)
      .executeTakeFirst();
    if (!found) throw new RecordsError('absent', 'there is no such phone');
    if (found.shut_out_on === null) await change(doing, 'devices', device, { shut_out_on: doing.today });
    await doing.tx.deleteFrom('keys').where('device', '=', device).execute();
  });
}

/** Notes that a phone called just now, and lets it stay for another while. */
export async function seePhone(programme: Programme, device: string, now: Date): Promise<void> {
  const at = now.toISOString();
  await programme.write
    .insertInto('sightings')
    .values({ device, at })
    .onConflict((clash) => clash.column('device').doUpdateSet({ at }))
    .execute();
  await programme.write
    .updateTable('keys')
    .set({ ends_at: new Date(now.getTime() + daysLetIn * 24 * 60 * 60_000).toISOString() })
    .where('device', '=', device)
    .where('purpose', '=', 'signed in')
    .execute();
}

/** Phones that were ever let in, those still let in first, latest first; and the people who may carry one. */
export async function readPhones(
  db: Kysely<Tables>,
): Promise<{ phones: PhoneLetIn[]; people: PersonListed[] }> {
  const rows = await db
    .selectFrom('devices')
    .leftJoin('people', 'people.id', 'devices.person')
    .leftJoin('sightings', 'sightings.device', 'devices.id')
    .select([
      'devices.id',
      'devices.code',
      'devices.let_in_on',
      'devices.shut_out_on',
      'people.code as person',
      'people.role',
      'sightings.at',
    ])
    .where('devices.ended_act', 'is', null)
    .where('devices.let_in_on', 'is not', null)
    .orderBy('devices.id', 'desc')
    .execute();
  const phones = rows.map((row) => ({
    id: row.id,
    code: row.code,
    person: row.person ?? '',
    role: (row.role ?? 'guest') as Holder['role'],
    letInOn: row.let_in_on!,
    lastSeenAt: row.at,
    shutOutOn: row.shut_out_on,
  }));
  const people = await db
    .selectFrom('people')
    .select(['id', 'code', 'name', 'role', 'left_on'])
    .where('ended_act', 'is', null)
    .orderBy('code')
    .execute();
  return {
    phones: [
      ...phones.filter(({ shutOutOn }) => shutOutOn === null),
      ...phones.filter(({ shutOutOn }) => shutOutOn !== null),
    ],
    people: people.map(({ id, code, name, role, left_on }) => ({
      id,
      code,
      name,
      role: role as Holder['role'] | null,
      leftOn: left_on,
    })),
  };
}
