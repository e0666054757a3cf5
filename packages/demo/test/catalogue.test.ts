import {
  type AnyRow,
  type Field,
  fieldsOf,
  type KindName,
  kindNames,
  kindOf,
  type NoteValue,
  type PossibleParent,
  rowProblems,
  type TraitRule,
  valueProblem,
} from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';
import { simulateGarden } from '../src/index.ts';

const garden = simulateGarden({ seed: 1 });
const all = [...garden.records].map(({ kind, row }) => ({ kind, row: row as unknown as AnyRow }));
const corrections = [...garden.corrections];
const withdrawals = [...garden.withdrawals];
const rowsOf = (kind: KindName) => all.filter((each) => each.kind === kind).map(({ row }) => row);

const codes = new Map<string, Set<string>>(
  kindNames.map((kind) => {
    const key = kindOf(kind).key;
    return [kind, new Set(key ? rowsOf(kind).map((row) => String(row[key])) : [])];
  }),
);

/** What a row refers to and is not there. */
function dangling(kind: KindName, row: AnyRow): string[] {
  const missing = (name: string, field: Field): string[] => {
    const value = row[name];
    if (value === undefined || value === null) return [];
    if (field.type === 'reference') {
      return codes.get(field.to)!.has(String(value)) ? [] : [`${name} ${String(value)}`];
    }
    if (field.type !== 'parents') return [];
    return (value as readonly PossibleParent[])
      .filter(({ genet }) => genet !== 'self' && !codes.get('genets')!.has(genet))
      .map(({ genet }) => `${name} ${genet}`);
  };
  return fieldsOf(kind).flatMap(([name, field]) => missing(name, field));
}

describe('the records of the demo garden', () => {
  it('hold every kind but photos, whose files would have to come along', () => {
    expect(kindNames.filter((kind) => rowsOf(kind).length === 0)).toEqual(['photos']);
  });

  it('come kind by kind in the order of the catalogue', () => {
    const order = [...new Set(all.map(({ kind }) => kind))];
    expect(order).toEqual(kindNames.filter((kind) => kind !== 'photos'));
  });

  it('satisfy the declaration of their kind, field by field, with no date after today', () => {
    const wrong = all.flatMap(({ kind, row }) =>
      rowProblems(kind, row, garden.today).map((problem) => ({ kind, row, problem })),
    );
    expect(wrong.slice(0, 3)).toEqual([]);
  });

  it('refer to nothing that is not there', () => {
    const wrong = all.flatMap(({ kind, row }) => dangling(kind, row).map((what) => `${kind}: ${what}`));
    expect(wrong.slice(0, 3)).toEqual([]);
  });

  it('use no code twice', () => {
    for (const kind of kindNames) {
      const key = kindOf(kind).key;
      if (key) expect([kind, codes.get(kind)!.size]).toEqual([kind, rowsOf(kind).length]);
    }
  });

  it('use no id twice, and every fact has one of the shape of a UUIDv7', () => {
    const ids = [...all.map(({ row }) => row.id), ...corrections.map(({ row }) => row.id)].filter(
      (id) => id !== undefined,
    );
    expect(new Set(ids).size).toBe(ids.length);
    for (const { kind, row } of all) {
      if (kindOf(kind).nature !== 'fact') continue;
      expect(row.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    }
  });

  it('keep every note’s value within its trait’s limits, corrected notes too', () => {
    const traits = new Map(rowsOf('traits').map((row) => [row.code, row as unknown as TraitRule]));
    const notes = [...rowsOf('notes'), ...corrections.map(({ row }) => row as unknown as AnyRow)];
    const problems = notes.flatMap((row) => {
      if (row.value === undefined) return [];
      const problem = valueProblem(traits.get(String(row.trait))!, row.value as NoteValue);
      return problem ? [problem] : [];
    });
    expect(problems.slice(0, 3)).toEqual([]);
  });

  it('have parentages without loops, known and possible parents alike', () => {
    const parents = new Map(
      rowsOf('genets').map((row) => [
        String(row.code),
        [...((row.seed_parent ?? []) as PossibleParent[]), ...((row.pollen_parent ?? []) as PossibleParent[])]
          .map(({ genet }) => genet)
          .filter((genet) => genet !== 'self'),
      ]),
    );
    const done = new Set<string>();
    const under = new Set<string>();
    const visit = (genet: string): void => {
      if (done.has(genet)) return;
      if (under.has(genet)) throw new Error(`a loop through ${genet}`);
      under.add(genet);
      for (const parent of parents.get(genet) ?? []) visit(parent);
      under.delete(genet);
      done.add(genet);
    };
    for (const genet of parents.keys()) visit(genet);
    expect(done.size).toBe(parents.size);
  });

  it('put no two plants on one spot of a bed at a time', () => {
    const taken = new Map<string, AnyRow>();
    for (const row of [...rowsOf('plants'), ...rowsOf('moves')]) {
      const spot = `${String(row.place)} ${String(row.walk)}`;
      expect([spot, taken.get(spot)]).toEqual([spot, undefined]);
      taken.set(spot, row);
    }
  });

  it('note no plant before it was planted, nor as seen after it was gone', () => {
    const plants = new Map(rowsOf('plants').map((row) => [row.code, row]));
    for (const note of rowsOf('notes')) {
      if (!note.plant) continue;
      const plant = plants.get(note.plant)!;
      expect(String(note.on) >= String(plant.planted_on)).toBe(true);
      if (plant.gone_on && note.state === 'seen') expect(String(note.on) < String(plant.gone_on)).toBe(true);
    }
  });
});

describe('what was done afterwards', () => {
  const ids = new Set(all.map(({ kind, row }) => `${kind} ${String(row.id)}`));

  it('corrects and withdraws facts that are there, none of them twice', () => {
    const touched = [
      ...corrections.map(({ replaces }) => `notes ${replaces}`),
      ...withdrawals.map(({ kind, id }) => `${kind} ${id}`),
    ];
    expect(touched.filter((each) => !ids.has(each))).toEqual([]);
    expect(new Set(touched).size).toBe(touched.length);
    expect(corrections.length).toBeGreaterThan(5);
    expect(withdrawals.length).toBeGreaterThan(1);
  });

  it('corrects the value and leaves the plant, the trait and the day as they were', () => {
    const notes = new Map(rowsOf('notes').map((row) => [row.id, row]));
    for (const { replaces, row } of corrections) {
      const before = notes.get(replaces)!;
      expect([row.plant, row.trait, row.on]).toEqual([before.plant, before.trait, before.on]);
      expect(row.value).not.toEqual(before.value);
    }
  });
});
