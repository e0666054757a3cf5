import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Measure, Weight } from '@keelrow/breeding/labels';
import { create, type Font } from 'fontkit';

/**
 * The faces that labels and sheets are set in: Atkinson Hyperlegible Next, whose letters and figures are drawn so that
 * none is taken for another (0 and O, 1, I and l); letters that it lacks (Vietnamese, Greek, Cyrillic) from Noto Sans.
 * Both under the SIL Open Font License 1.1.
 */
export interface Face {
  /** Name within a PDF. */
  readonly name: string;
  readonly bytes: Buffer;
  readonly font: Font;
}

const require = createRequire(import.meta.url);
const atkinson = join(
  dirname(require.resolve('@fontsource/atkinson-hyperlegible-next/package.json')),
  'files/atkinson-hyperlegible-next',
);
const noto = join(dirname(require.resolve('@fontsource/noto-sans/package.json')), 'files/noto-sans');
const files: Record<Weight, readonly string[]> = {
  heavy: [
    ...['latin', 'latin-ext'].map((part) => `${atkinson}-${part}-800-normal.woff`),
    ...['latin-ext', 'vietnamese', 'greek', 'cyrillic'].map((part) => `${noto}-${part}-800-normal.woff`),
  ],
  plain: [
    ...['latin', 'latin-ext'].map((part) => `${atkinson}-${part}-500-normal.woff`),
    ...['latin-ext', 'vietnamese', 'greek', 'cyrillic'].map((part) => `${noto}-${part}-500-normal.woff`),
  ],
};

const read = new Map<Weight, readonly Face[]>();

/** The faces of a weight, in the order in which a letter is looked for in them. */
export function facesOf(weight: Weight): readonly Face[] {
  let faces = read.get(weight);
  if (!faces) {
    faces = files[weight].map((file, at) => {
      const bytes = readFileSync(file);
      return { name: `${weight}-${at}`, bytes, font: create(bytes) as Font };
    });
    read.set(weight, faces);
  }
  return faces;
}

/** A piece of text that one face can print. */
export interface Run {
  readonly face: Face;
  readonly text: string;
}

const standIn = '?';

/**
 * Splits a text by the faces that hold its letters. A letter that none holds is printed without its marks, else as a
 * question mark, and handed to `missing`.
 */
export function runsOf(text: string, weight: Weight, missing?: (letter: string) => void): Run[] {
  const faces = facesOf(weight);
  const holding = (letter: string): Face | undefined =>
    faces.find(({ font }) => font.hasGlyphForCodePoint(letter.codePointAt(0)!));
  const runs: { face: Face; text: string }[] = [];
  for (const letter of text.normalize('NFC')) {
    let printed = letter;
    let face = holding(letter);
    if (!face) {
      missing?.(letter);
      printed = letter.normalize('NFD')[0]!;
      face = holding(printed);
      if (!face) [printed, face] = [standIn, faces[0]!];
    }
    const last = runs.at(-1);
    if (last?.face === face) last.text += printed;
    else runs.push({ face, text: printed });
  }
  return runs;
}

const widths = new Map<string, number>();
const widthsKept = 50_000;

/** Width of a text at a size of 1, as the PDF sets it. Fitting asks for the same words over and over. */
export const measureText: Measure = (text, weight) => {
  const key = `${weight} ${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  const width = runsOf(text, weight).reduce((sum, { face, text: run }) => sum + widthOfRun(face, run), 0);
  if (widths.size >= widthsKept) widths.clear();
  widths.set(key, width);
  return width;
};

/** Width of what one face prints at a size of 1. */
export const widthOfRun = ({ font }: Face, text: string): number =>
  font.layout(text).advanceWidth / font.unitsPerEm;
