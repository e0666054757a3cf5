import type { Act } from '../writing/act.ts';
import type { Checking } from '../writing/add.ts';
import type { Interpreted } from './interpret.ts';
import { type ImportProblem, plantColumns } from './plan.ts';

/** Where a file of notes says of a plant that it is another genet than the records do. */
export async function plantProblems(
  doing: Pick<Act, 'tx'>,
  rows: readonly Interpreted[],
  checking: Checking,
): Promise<ImportProblem[]> {
  const said = rows.flatMap(({ row, record, columns, plantSaid }) => {
    const id = plantSaid?.genet ? checking.references.idOf('plants', record.plant as string) : null;
    return id
      ? [
          {
            row,
            id,
            plant: record.plant as string,
            genet: plantSaid!.genet!,
            column: columns.get(plantColumns.genet) ?? null,
          },
        ]
      : [];
  });
  if (said.length === 0) return [];
  const stored = await doing.tx
    .selectFrom('plants')
    .innerJoin('genets', 'genets.id', 'plants.genet')
    .select(['plants.id', 'genets.code'])
    .where('plants.id', 'in', [...new Set(said.map(({ id }) => id))])
    .execute();
  const genetOf = new Map(stored.map(({ id, code }) => [id, code]));
  return said.flatMap(({ row, id, plant, genet, column }) => {
    const recorded = genetOf.get(id);
    if (recorded === undefined || recorded === genet) return [];
    return [
      {
        row,
        column,
        problem: `plant “${plant}” is recorded as a plant of “${recorded}”, the file says “${genet}”`,
        remedy: 'mend the file, or record under identities that the plant was found to be another genet',
      },
    ];
  });
}
