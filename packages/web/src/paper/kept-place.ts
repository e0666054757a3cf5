/** Where typing in stopped, by sheet, on this device. */
export interface KeptPlace {
  readonly on: string;
  readonly by: string;
  /** Row and column of the box that was typed into last. */
  readonly row: number;
  readonly column: number;
}

const nameOf = (sheet: string): string => `keelrow-paper-${sheet}`;

export function placeKept(sheet: string): KeptPlace | null {
  try {
    const read = JSON.parse(localStorage.getItem(nameOf(sheet)) ?? 'null') as Partial<KeptPlace> | null;
    if (!read || typeof read.on !== 'string' || typeof read.by !== 'string') return null;
    return { on: read.on, by: read.by, row: Number(read.row) || 0, column: Number(read.column) || 0 };
  } catch {
    return null;
  }
}

export const keepPlace = (sheet: string, place: KeptPlace): void =>
  localStorage.setItem(nameOf(sheet), JSON.stringify(place));
