import type { LabelForm, LabelLead, PaperName, SheetGrid } from '@keelrow/breeding/labels';
import type { Units } from '../parts/measure.ts';

/** Shapes and sizes to begin from, each of which can be changed. Millimetres; common practice, no source. */
export interface Preset {
  readonly key: string;
  readonly name: string;
  readonly form: LabelForm;
  readonly lead: LabelLead;
}

const single = (width: number, height: number): LabelForm => ({ kind: 'single', size: { width, height } });
const sheet = (
  paper: PaperName,
  columns: number,
  rows: number,
  rest: Partial<SheetGrid> = {},
): LabelForm => ({
  kind: 'sheet',
  grid: { paper, columns, rows, marginX: 0, marginY: 0, gapX: 0, gapY: 0, ...rest },
  startAt: 1,
});

export const presets: readonly Preset[] = [
  { key: 'stake', name: 'Stake', form: single(150, 20), lead: 'code' },
  { key: 'tag', name: 'Tag', form: single(60, 20), lead: 'code' },
  { key: 'pot', name: 'Pot', form: single(60, 35), lead: 'code' },
  { key: 'visitor', name: 'For visitors', form: single(100, 60), lead: 'name' },
  { key: 'a4', name: 'Sheet, A4', form: sheet('A4', 3, 8, { marginY: 0.5 }), lead: 'code' },
  {
    key: 'letter',
    name: 'Sheet, Letter',
    form: sheet('Letter', 3, 10, { marginX: 4.8, marginY: 12.7, gapX: 3.2 }),
    lead: 'code',
  },
];

/** Millimetres as they are typed: millimetres, or inches in a US programme. */
export const lengthUnit = (units: Units): string => (units === 'us' ? 'in' : 'mm');
export const shownLength = (mm: number, units: Units): string =>
  String(Number(units === 'us' ? (mm / 25.4).toFixed(3) : mm.toFixed(2)));

/** The millimetres of a typed length; null where it is no number. A comma is read as a point. */
export function readLength(typed: string, units: Units): number | null {
  const text = typed.trim().replace(',', '.');
  if (!/^\d+(\.\d+)?$/.test(text)) return null;
  return units === 'us' ? Number(text) * 25.4 : Number(text);
}

const kept = 'keelrow-labels';

export interface KeptForm {
  readonly preset: string;
  readonly form: LabelForm;
  readonly lead: LabelLead;
  readonly copies: number;
}

/** The form chosen last on this device, else stakes. */
export function lastForm(): KeptForm {
  const usual: KeptForm = { preset: 'stake', form: presets[0]!.form, lead: 'code', copies: 1 };
  try {
    const read = JSON.parse(localStorage.getItem(kept) ?? 'null') as KeptForm | null;
    return read?.form?.kind === 'single' || read?.form?.kind === 'sheet' ? { ...usual, ...read } : usual;
  } catch {
    return usual;
  }
}

export const keepForm = (form: KeptForm): void => localStorage.setItem(kept, JSON.stringify(form));
