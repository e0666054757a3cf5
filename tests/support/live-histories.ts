import { createHash } from 'node:crypto';
import { type Programme, readPhoto } from '@keelrow/records';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { KillableKeelrow } from './killable-keelrow.ts';
import { connectPhones, type Fault, SimulatedPhone } from './simulated-phone.ts';
import { makeSmallGarden, smallGarden } from './small-garden.ts';
import { type Backend, newPlace } from './stores.ts';

const atATime = 4;

const { plants, traits } = smallGarden;
/** Within the limits of the trait, and one beyond them, which the server refuses. */
const sound = fc.integer({ min: 0, max: 200 });
const beyond = 900;

type Step =
  | {
      readonly do: 'note';
      readonly phone: number;
      readonly chain: number;
      readonly value: number;
      readonly fault: Fault;
    }
  | { readonly do: 'undo'; readonly phone: number; readonly chain: number; readonly fault: Fault }
  | { readonly do: 'hand over'; readonly phone: number; readonly fault: Fault }
  | { readonly do: 'hand over in two windows'; readonly phone: number }
  | { readonly do: 'restart'; readonly phone: number }
  | { readonly do: 'clock'; readonly phone: number; readonly daysOff: number }
  | { readonly do: 'picture'; readonly phone: number; readonly byte: number; readonly fault: Fault };

const phone = fc.nat({ max: 1 });
const chain = fc.nat({ max: 2 });
/** The server is killed now and then; starting it again takes a second. */
const fault = fc.oneof(
  { weight: 130, arbitrary: fc.constant<Fault>('none') },
  { weight: 130, arbitrary: fc.constantFrom<Fault>('before', 'after', 'half', 'death') },
  { weight: 1, arbitrary: fc.constant<Fault>('kill') },
);
const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      do: fc.constant('note' as const),
      phone,
      chain,
      value: fc.oneof({ weight: 6, arbitrary: sound }, { weight: 1, arbitrary: fc.constant(beyond) }),
      fault,
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('undo' as const), phone, chain, fault }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('hand over' as const), phone, fault }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('hand over in two windows' as const), phone }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('restart' as const), phone }) },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('clock' as const),
      phone,
      daysOff: fc.integer({ min: -4000, max: 4000 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('picture' as const), phone, byte: fc.nat({ max: 255 }), fault }),
  },
);

/** What a person entered on one subject and did not undo, latest last. */
interface Entered {
  readonly id: string;
  readonly value: number;
}

/**
 * Random lives of phones over HTTP with a server that is killed now and then; each ends with every note that stands
 * stored once. histories: how many; kills: how often at least the server has to die in them.
 */
export function liveHistories(backend: Backend, histories: number, kills: number): void {
  describe.skipIf(backend === 'postgres' && !inject('postgres'))(
    `phones and a server that dies (${backend})`,
    () => {
      let place: Awaited<ReturnType<typeof newPlace>>;
      let programme: Programme;
      let server: KillableKeelrow;
      let disconnect: () => void;
      let comingBack: Promise<unknown> = Promise.resolve();

      /** The server dies once, and is started again at once, however many asked for it. */
      const network = {
        get address() {
          return server.address;
        },
        kill(): Promise<void> {
          const killed = comingBack.then(() => server.kill());
          comingBack = killed.then(() => server.start());
          return killed;
        },
      };

      beforeAll(async () => {
        place = await newPlace(backend);
        programme = await makeSmallGarden(place.where);
        server = new KillableKeelrow(place.where);
        await server.start();
        disconnect = connectPhones();
      });
      afterAll(async () => {
        disconnect();
        await comingBack;
        await server.kill();
        await programme.close();
        await place.remove();
      });

      /** Ids, values and state of the notes stored under these ids. */
      const stored = async (ids: readonly string[]) =>
        ids.length === 0
          ? []
          : programme.read
              .selectFrom('notes')
              .select(['id', 'value_number', 'ended_act', 'remark'])
              .where('id', 'in', ids)
              .execute();

      let told = 0;
      async function live(steps: readonly Step[]): Promise<void> {
        told += 1;
        const history = `history ${told} on ${backend}`;
        const phones = [0, 1].map(() => new SimulatedPhone(network));
        const chains = new Map<string, Entered[]>();
        const everEntered = new Map<string, number>();
        const pictures = new Set<string>();
        const of = (one: { phone: number; chain: number }): Entered[] => {
          const key = `${one.phone} ${one.chain}`;
          if (!chains.has(key)) chains.set(key, []);
          return chains.get(key)!;
        };

        for (const one of steps) {
          const here = phones[one.phone]!;
          switch (one.do) {
            case 'note': {
              const before = of(one);
              const ids = await here.with(one.fault, async (app) => {
                const entered = await app.enter([
                  {
                    kind: 'notes',
                    row: {
                      plant: plants[one.chain]!,
                      trait: traits[one.chain]!,
                      on: '2026-05-20',
                      value: one.value,
                      remark: history,
                    },
                    words: `${one.value}`,
                    ...(before.length > 0 ? { replaces: before.at(-1)!.id } : {}),
                  },
                ]);
                // Entering hands over by itself; the fault hits that request.
                if (one.fault !== 'death') await app.handOver();
                return entered;
              });
              if (ids) {
                before.push({ id: ids[0]!, value: one.value });
                everEntered.set(ids[0]!, one.value);
              }
              break;
            }
            case 'undo': {
              const entered = of(one);
              const last = entered.pop();
              if (!last) break;
              const taken = await here.with(one.fault === 'death' ? 'after' : one.fault, async (app) => {
                const back = await app.withdrawOrForget(last.id, 'undone in a test');
                await app.handOver();
                return back;
              });
              if (!taken || taken.forgotten) break;
              // What was refused in between was given up when the value undone now took its place.
              const former = entered.findLastIndex(({ value }) => value !== beyond);
              entered.length = former + 1;
              if (former < 0) break;
              // It is the answer that stands in its place now; half of the screens go on naming the first one.
              const { id, value } = entered[former]!;
              entered[former] = { id: one.chain === 0 ? taken.answer : id, value };
              everEntered.set(taken.answer, value);
              break;
            }
            case 'hand over':
              await here.with(one.fault, (app) => app.handOver());
              break;
            case 'hand over in two windows':
              await here.handOverTwice();
              break;
            case 'restart':
              here.restart();
              break;
            case 'clock':
              here.setClock(one.daysOff);
              break;
            case 'picture': {
              // Beside a PostgreSQL address no folder for pictures can be named yet: there they wait.
              if (programme.folder === null) break;
              const bytes = new Uint8Array([0xff, 0xd8, 0xff, one.byte]);
              pictures.add(createHash('sha256').update(bytes).digest('hex'));
              await here.with(one.fault, async (app) => {
                await app.keepPhoto(bytes.buffer, { mediaType: 'image/jpeg', words: 'a picture' });
                if (one.fault === 'death') return;
                await app.handOver();
                await app.photosAtRest();
              });
            }
          }
        }

        // In the end there is a network, and time.
        for (const one of phones) {
          for (let tries = 0; tries < 20; tries++) {
            await comingBack;
            await one.with('none', async (app) => {
              await app.handOver();
              await app.photosAtRest();
            });
            const left = await one.app.db.facts.where('state').equals('waiting').count();
            if (left + (await one.app.db.photos.count()) === 0) break;
          }
          const left = await one.app.notYetTaken();
          expect(left.filter(({ state }) => state === 'waiting')).toEqual([]);
          // Only what is beyond the limits came back.
          expect(left.filter(({ row }) => row?.value !== beyond)).toEqual([]);
          expect(await one.app.db.photos.count()).toBe(0);
        }

        const all = await stored([...everEntered.keys()]);
        const byId = new Map(all.map((note) => [note.id, note]));
        expect(all).toHaveLength(byId.size);
        for (const { id, value_number } of all) {
          expect(value_number).toBe(everEntered.get(id));
          expect(value_number).not.toBe(beyond);
        }
        // On each subject the latest sound value that was not undone stands, once, and nothing else.
        const standing = await programme.read
          .selectFrom('notes')
          .select(['id', 'value_number'])
          .where('remark', '=', history)
          .where('ended_act', 'is', null)
          .execute();
        const expected = [...chains.values()].flatMap((entered) => {
          const last = entered.findLast(({ value }) => value !== beyond);
          return last ? [last.value] : [];
        });
        expect(standing.map((note) => note.value_number!).sort((a, b) => a - b)).toEqual(
          expected.sort((a, b) => a - b),
        );
        // Every note stored in this history was entered in it.
        const ofHistory = await programme.read
          .selectFrom('notes')
          .select('id')
          .where('remark', '=', history)
          .execute();
        expect(ofHistory.filter(({ id }) => !everEntered.has(id))).toEqual([]);
        for (const hash of pictures) expect(await readPhoto(programme, hash)).not.toBeNull();
      }

      it(`${histories} histories end with every note that stands stored once`, async () => {
        const runs = Array.from({ length: atATime }, (_, lane) =>
          fc.assert(fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 10 }), live), {
            numRuns: histories / atATime,
            seed: 20_310_520 + lane,
            endOnFailure: true,
          }),
        );
        await Promise.all(runs);
        expect(server.kills).toBeGreaterThanOrEqual(kills);
      }, 900_000);
    },
  );
}
