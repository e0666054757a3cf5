import { limits } from '../limits.ts';
import { TableError } from '../table-error.ts';
import { type Archive, damaged } from './archive.ts';
import { attribute, readXml } from './xml-events.ts';

export interface SheetEntry {
  readonly name: string;
  readonly part: string;
  readonly hidden: boolean;
}

export interface Workbook {
  readonly sheets: readonly SheetEntry[];
  readonly dateSystem: 1900 | 1904;
  readonly sharedStringsPart: string | undefined;
  readonly stylesPart: string | undefined;
}

interface Relation {
  readonly id: string;
  readonly kind: string;
  readonly part: string;
}

/**
 * The table of contents of a spreadsheet file: ECMA-376 part 1, 18.2, its parts found by their relations (part 2).
 * @throws TableError when the archive is no spreadsheet, saying what it is
 */
export async function readWorkbook(archive: Archive): Promise<Workbook> {
  const main = archive.has('_rels/.rels')
    ? (await relations(archive, '')).find(({ kind }) => kind === 'officeDocument')?.part
    : undefined;
  if (main === undefined || !main.endsWith('.xml') || !main.startsWith('xl/') || !archive.has(main))
    throw otherArchive(archive);
  const related = await relations(archive, main);
  const sheets: SheetEntry[] = [];
  let dateSystem: 1900 | 1904 = 1900;
  await readXml(archive.name, archive.read(main, limits.partBytes), {
    open(name, attributes) {
      if (name === 'workbookPr' && /^(1|true|on)$/.test(attribute(attributes, 'date1904') ?? ''))
        dateSystem = 1904;
      if (name !== 'sheet') return;
      const relation = related.find(({ id }) => id === attribute(attributes, 'id'));
      // Sheets that hold a chart alone, or dialogues, have other relations.
      if (relation?.kind !== 'worksheet') return;
      const hidden = (attribute(attributes, 'state') ?? 'visible') !== 'visible';
      sheets.push({ name: attribute(attributes, 'name') ?? '', part: relation.part, hidden });
    },
  });
  if (sheets.length === 0) throw damaged(archive.name, 'it holds no sheet');
  const partOf = (wanted: string) =>
    related.find(({ kind, part }) => kind === wanted && archive.has(part))?.part;
  return { sheets, dateSystem, sharedStringsPart: partOf('sharedStrings'), stylesPart: partOf('styles') };
}

/** Relations of a part, or of the whole archive for ''. */
async function relations(archive: Archive, part: string): Promise<Relation[]> {
  const slash = part.lastIndexOf('/') + 1;
  const folder = part.slice(0, slash);
  const found: Relation[] = [];
  await readXml(archive.name, archive.read(`${folder}_rels/${part.slice(slash)}.rels`, limits.partBytes), {
    open(name, attributes) {
      if (name !== 'Relationship') return;
      const target = attributes.Target ?? '';
      found.push({
        id: attributes.Id ?? '',
        kind: (attributes.Type ?? '').split('/').at(-1) ?? '',
        part: resolved(folder, target),
      });
    },
  });
  return found;
}

function resolved(folder: string, target: string): string {
  const parts: string[] = [];
  for (const step of (target.startsWith('/') ? target : folder + target).split('/')) {
    if (step === '..') parts.pop();
    else if (step !== '' && step !== '.') parts.push(step);
  }
  return parts.join('/');
}

const asXlsx = 'Open it in a spreadsheet program and save it as .xlsx or as CSV in UTF-8.';

function otherArchive(archive: Archive): TableError {
  const known: readonly (readonly [string, string, string])[] = [
    ['xl/workbook.bin', 'a spreadsheet in binary form (.xlsb)', asXlsx],
    [
      'word/document.xml',
      'a text document (.docx)',
      'Copy its table into a spreadsheet program and save it as .xlsx or CSV.',
    ],
    [
      'ppt/presentation.xml',
      'a set of slides (.pptx)',
      'Copy its table into a spreadsheet program and save it as .xlsx or CSV.',
    ],
    ['content.xml', 'an OpenDocument file (.ods, .odt)', asXlsx],
    ['index/document.iwa', 'a document in a form that cannot be read here', asXlsx],
  ];
  const [, what, remedy] = known.find(([part]) => archive.has(part)) ?? [
    '',
    'a zip archive without a spreadsheet',
    'Unpack it and choose the file inside.',
  ];
  return new TableError(
    'not-a-table',
    `${archive.name} is ${what}, not a table that can be read here.`,
    remedy,
  );
}
