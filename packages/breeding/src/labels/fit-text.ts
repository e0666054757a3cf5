import { below, capitals, type Measure, type Shape, type Weight } from './shapes.ts';

export interface Room {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Fitted {
  readonly shapes: readonly Shape[];
  /** Text was left out because there was no room for all of it. */
  readonly shortened: boolean;
}

const lead = 1.12;
const heightOf = (lines: number, size: number): number => (capitals + below + (lines - 1) * lead) * size;

/**
 * Sets a text in a room, as large as it fits between two sizes (mm), in as many lines as that takes. At the smallest
 * size, what does not fit is left out by whole words, with … in its place; nothing ever runs out of the room.
 */
export function fitText(
  text: string,
  room: Room,
  weight: Weight,
  sizes: { readonly least: number; readonly most: number },
  measure: Measure,
): Fitted {
  if (text === '' || heightOf(1, sizes.least) > room.height) return { shapes: [], shortened: text !== '' };
  for (let size = sizes.most; size >= sizes.least; size *= 0.96) {
    const lines = wrapped(text, room.width / size, weight, measure);
    if (lines && heightOf(lines.length, size) <= room.height) {
      return { shapes: drawn(lines, size, room, weight, measure), shortened: false };
    }
  }
  const size = sizes.least;
  const most = Math.max(1, Math.floor((room.height / size - capitals - below) / lead) + 1);
  const lines = shortenedTo(text, most, room.width / size, weight, measure);
  return { shapes: drawn(lines, size, room, weight, measure), shortened: true };
}

function drawn(
  lines: readonly string[],
  size: number,
  room: Room,
  weight: Weight,
  measure: Measure,
): Shape[] {
  return lines.map((text, at) => ({
    kind: 'text',
    text,
    weight,
    x: room.x,
    y: room.y + (capitals + at * lead) * size,
    size,
    width: measure(text, weight) * size,
  }));
}

/** Lines no wider than that (in ems); null where a single word is wider. */
function wrapped(text: string, width: number, weight: Weight, measure: Measure): string[] | null {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && measure(longer, weight) <= width) lines[lines.length - 1] = longer;
    else if (measure(word, weight) <= width) lines.push(word);
    else return null;
  }
  return lines;
}

/** As many whole words as go into so many lines, with … after them; of a first word that is too wide, its beginning. */
function shortenedTo(text: string, most: number, width: number, weight: Weight, measure: Measure): string[] {
  const words = text.split(' ');
  for (let kept = words.length - 1; kept > 0; kept--) {
    const lines = wrapped(`${words.slice(0, kept).join(' ')} …`, width, weight, measure);
    if (lines && lines.length <= most) return lines;
  }
  const letters = [...words[0]!];
  while (letters.length > 0 && measure(`${letters.join('')}…`, weight) > width) letters.pop();
  return letters.length > 0 ? [`${letters.join('')}…`] : [];
}
