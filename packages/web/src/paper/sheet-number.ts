import { readLabelCode } from '@keelrow/breeding/labels';

/** The number of a sheet from what was typed: R26-07, r26-07 4 or R26-074 with its check character. */
export function numberOf(typed: string): string {
  const readings = readLabelCode(typed);
  const checked = readings.find(({ code, check }) => check === 'right' && looksRight(code));
  return (checked ?? readings.find(({ code }) => looksRight(code)))?.code ?? typed.trim();
}

const looksRight = (code: string): boolean => /^r\d\d-\d{2,}$/i.test(code);
