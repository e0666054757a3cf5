import { setImmediate } from 'node:timers/promises';
import {
  type LabelDrawn,
  type LabelPage,
  type LabelText,
  labelPayload,
  labelSizeOf,
  layOutLabel,
  layOutSheets,
  type QrModules,
} from '@keelrow/breeding/labels';
import encodeQR from 'qr';
import type { LabelsWanted } from '../contract/printing.ts';
import { RefusedError } from '../refusals.ts';
import { measureText, runsOf } from './faces.ts';

const labelsAtOnce = 20;

export interface LabelPages {
  readonly pages: readonly LabelPage[];
  readonly labels: number;
  /** What had to give way, in words. */
  readonly told: readonly string[];
}

/** A QR code's modules without a quiet zone; a quarter of it may be lost to dirt (level Q of ISO/IEC 18004). */
export const qrModules = (text: string): QrModules => {
  const bordered = encodeQR(text, 'raw', { ecc: 'quartile', border: 1 });
  return bordered.slice(1, -1).map((row) => row.slice(1, -1));
};

/**
 * Draws labels on their pages; refuses, in words, a form or size that none of them fits. Other requests are answered
 * between two labels.
 */
export async function labelPages(
  texts: readonly LabelText[],
  { form, lead, copies }: Pick<LabelsWanted, 'form' | 'lead' | 'copies'>,
): Promise<LabelPages> {
  try {
    const size = labelSizeOf(form);
    const told: string[] = [];
    const drawn: LabelDrawn[] = [];
    for (const [at, text] of texts.entries()) {
      if (at % labelsAtOnce === 0) await setImmediate();
      const label = layOutLabel(text, qrModules(labelPayload(text.code)), size, measureText, lead);
      told.push(...label.told, ...unprintable(text));
      for (let copy = 0; copy < copies; copy++) drawn.push(label);
    }
    return { pages: layOutSheets(drawn, form), labels: drawn.length, told };
  } catch (error) {
    if (error instanceof RangeError) {
      throw new RefusedError(422, { problem: error.message, remedy: 'choose a larger label' });
    }
    throw error;
  }
}

function unprintable({ code, line, more }: LabelText): string[] {
  const missing = new Set<string>();
  for (const text of [code, line, more]) runsOf(text, 'heavy', (letter) => missing.add(letter));
  return missing.size > 0 ? [`${[...missing].join(' ')} on ${code} cannot be printed as it is`] : [];
}
