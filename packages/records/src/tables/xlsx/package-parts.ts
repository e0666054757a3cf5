import type { WriteColumn } from '../write-types.ts';
import { escapeText } from './escaped-text.ts';

const declaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const officeRelations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packageRelations = 'http://schemas.openxmlformats.org/package/2006/relationships';
const contentType = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** Cell styles by their place in `xl/styles.xml`. */
export const styles = { plain: 0, header: 1, text: 2 } as const;

/** Text as it stands in XML. */
export function xmlText(text: string): string {
  return escapeText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** The parts of a spreadsheet file around its sheets: ECMA-376 part 1, 12.3 and 18, and part 2. */
export function packageParts(sheetNames: readonly string[]): { path: string; xml: string }[] {
  const numbers = sheetNames.map((_, at) => at + 1);
  const relation = (id: number, kind: string, target: string) =>
    `<Relationship Id="rId${id}" Type="${officeRelations}/${kind}" Target="${target}"/>`;
  const override = (path: string, kind: string) =>
    `<Override PartName="${path}" ContentType="${contentType}.${kind}+xml"/>`;
  return [
    {
      path: '[Content_Types].xml',
      xml: `${declaration}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${override('/xl/workbook.xml', 'sheet.main')}${override('/xl/styles.xml', 'styles')}${numbers.map((number) => override(`/xl/worksheets/sheet${number}.xml`, 'worksheet')).join('')}</Types>`,
    },
    {
      path: '_rels/.rels',
      xml: `${declaration}<Relationships xmlns="${packageRelations}">${relation(1, 'officeDocument', 'xl/workbook.xml')}</Relationships>`,
    },
    {
      path: 'xl/workbook.xml',
      xml: `${declaration}<workbook xmlns="${main}" xmlns:r="${officeRelations}"><sheets>${sheetNames.map((name, at) => `<sheet name="${xmlText(name)}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`).join('')}</sheets></workbook>`,
    },
    {
      path: 'xl/_rels/workbook.xml.rels',
      xml: `${declaration}<Relationships xmlns="${packageRelations}">${numbers.map((number) => relation(number, 'worksheet', `worksheets/sheet${number}.xml`)).join('')}${relation(sheetNames.length + 1, 'styles', 'styles.xml')}</Relationships>`,
    },
    { path: 'xl/styles.xml', xml: stylesXml },
  ];
}

// Texts have the number format "@" (49), so that a code such as 2027-014 stays a text when somebody edits the cell.
const stylesXml = `${declaration}<styleSheet xmlns="${main}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="49" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1" applyNumberFormat="1"/><xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;

/** What stands before a sheet's rows: the first row held in place, and the columns' widths. */
export function sheetStart(columns: readonly WriteColumn[]): string {
  const widths = columns.map(({ header, width }, at) => {
    const shown = Math.min(80, Math.max(8, width ?? header.length + 2));
    return `<col min="${at + 1}" max="${at + 1}" width="${shown}" customWidth="1"/>`;
  });
  const pane = '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>';
  const view = `<sheetViews><sheetView workbookViewId="0">${pane}<selection pane="bottomLeft" activeCell="A2" sqref="A2"/></sheetView></sheetViews>`;
  return `${declaration}<worksheet xmlns="${main}">${view}${widths.length > 0 ? `<cols>${widths.join('')}</cols>` : ''}<sheetData>`;
}

export const sheetEnd = '</sheetData></worksheet>';
