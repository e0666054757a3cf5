import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { isKindName, kindNames } from '@keelrow/breeding/facts';
import type { Programme } from '../database/programme.ts';
import { RecordsError } from '../errors.ts';
import { type Cell, type OpenedTable, type OpenOptions, openTable } from '../tables/index.ts';
import { traitRules } from '../writing/note-values.ts';
import type { ImportPlan } from './plan.ts';
import { proposePlan } from './propose.ts';
import type { ImportPart } from './take-in.ts';

/** Rows looked at to propose a plan and shown as examples. */
const sampleRows = 50;

/** SHA-256 of a file, read as a stream. */
export async function hashOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest('hex');
}

/** The first rows of a table, as its reader numbers them. */
export async function sampleOf(table: OpenedTable): Promise<{ row: number; cells: readonly Cell[] }[]> {
  const sample: { row: number; cells: readonly Cell[] }[] = [];
  for await (const { row, cells } of table.rows) {
    sample.push({ row, cells });
    if (sample.length >= sampleRows) break;
  }
  return sample;
}

/** What the user says of a plan beforehand; the rest is proposed. */
export type PlanWishes = Partial<ImportPlan>;

/**
 * Opens a file on disk for import and proposes how to read it; what is wished overrides the proposal.
 * name: the file's own name, where it lies under another.
 */
export async function openImport(
  programme: Programme,
  path: string,
  wishes: PlanWishes,
  name = basename(path),
  options: OpenOptions = {},
): Promise<ImportPart & { readonly sample: readonly { row: number; cells: readonly Cell[] }[] }> {
  const table = await openTable(
    { path, name },
    { ...options, ...(wishes.sheet ? { sheet: wishes.sheet } : {}) },
  );
  const sample = await sampleOf(table);
  const proposal = proposePlan(
    table,
    sample.map(({ cells }) => cells),
    await traitRules(programme.read),
    wishes.kind,
  );
  return { table, plan: { ...proposal, ...wishes }, hash: await hashOf(path), sample };
}

/** Opens every sheet of a workbook, or every CSV file of a folder, whose name is a kind: a whole programme. */
export async function openWhole(
  programme: Programme,
  paths: readonly string[],
  wishes: Omit<PlanWishes, 'kind' | 'columns'>,
): Promise<ImportPart[]> {
  const parts: ImportPart[] = [];
  for (const path of paths) {
    const { sheets } = await openTable({ path });
    for (const sheet of sheets.length > 0 ? sheets : [undefined]) {
      const kind = sheet ?? basename(path).replace(/\.[^.]+$/, '');
      if (!isKindName(kind)) {
        throw new RecordsError(
          'input',
          `“${kind}” is no kind of record`,
          'name the sheets or files by kind, such as genets or notes',
          { file: basename(path) },
        );
      }
      const part = await openImport(programme, path, { ...wishes, kind, ...(sheet ? { sheet } : {}) });
      parts.push(sheets.length > 1 ? { ...part, hash: `${part.hash}#${sheet}` } : part);
    }
  }
  return inCatalogueOrder(parts);
}

function inCatalogueOrder(parts: ImportPart[]): ImportPart[] {
  // Traits before notes, and so on, since the reading of notes depends on their traits.
  const order = (part: ImportPart): number => kindNames.indexOf(part.plan.kind);
  return parts.sort((a, b) => order(a) - order(b));
}
