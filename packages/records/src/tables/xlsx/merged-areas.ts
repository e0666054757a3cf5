import { type MergedArea, parseArea } from '../cell-address.ts';
import { limits } from '../limits.ts';
import { TableError } from '../table-error.ts';
import type { Archive } from './archive.ts';

// "<" stands in no text of an XML file, so these are the elements themselves.
const element =
  /<(?:[\w.-]+:)?mergeCell\s[^>]{0,200}?ref\s{0,9}=\s{0,9}["']([A-Za-z0-9:$]+)["'][^>]{0,100}>/g;
const longestElement = 400;

/**
 * The merged areas of a sheet. They stand behind its rows, yet are needed before, so the whole sheet is unpacked once and
 * searched for them; this also proves its checksum before any row is used.
 */
export async function readMergedAreas(archive: Archive, part: string): Promise<MergedArea[]> {
  const areas: MergedArea[] = [];
  let tail = '';
  for await (const chunk of archive.read(part, limits.sheetBytes)) {
    const text = tail + Buffer.from(chunk.buffer, chunk.byteOffset, chunk.byteLength).toString('latin1');
    let end = 0;
    for (const match of text.matchAll(element)) {
      const area = parseArea(match[1]!);
      if (area) areas.push(area);
      end = match.index + match[0].length;
    }
    tail = text.slice(Math.max(end, text.length - longestElement));
    if (areas.length > limits.mergedAreas) {
      throw new TableError(
        'too-large',
        `A sheet of ${archive.name} has more than ${limits.mergedAreas} merged areas.`,
        'Save the sheet as CSV in UTF-8.',
      );
    }
  }
  return areas;
}
