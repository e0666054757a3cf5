import { checkCharacter } from './check-character.ts';
import { fitText, type Room } from './fit-text.ts';
import { below, capitals, type Measure, type QrModules, type Shape } from './shapes.ts';

/** What stands on a label. */
export interface LabelText {
  readonly code: string;
  /** Name or parentage. */
  readonly line: string;
  /** What else is told where there is room: day, number of seeds. */
  readonly more: string;
}

/** Whether the code is the largest, or the name, as for visitors. */
export type LabelLead = 'code' | 'name';

export interface LabelSize {
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
}

export interface LabelDrawn {
  readonly shapes: readonly Shape[];
  /** The label stands on end: its shapes are drawn for the sides exchanged and turned a quarter anticlockwise. */
  readonly turned: boolean;
  /** What had to give way, in words. */
  readonly told: readonly string[];
}

/** Smallest type, an em in mm: 1.9 mm is 5.4 points, below which print on a stake cannot be relied on (practice). */
const leastCode = 2.2;
const leastLine = 1.9;
/** Modules of a QR code smaller than this (mm) are not read by a phone at arm's length (practice). */
const leastModule = 0.3;
/** The quiet zone of a QR code is four modules wide on all sides: ISO/IEC 18004. */
const quietZone = 4;

/**
 * Draws a label of a size. The code keeps all of its characters, whatever else has to give way: first the second line
 * is dropped, then names are shortened by words, then the QR code is left out. Throws RangeError where even the code
 * alone does not fit, saying how wide the label would have to be.
 */
export function layOutLabel(
  text: LabelText,
  modules: QrModules,
  size: LabelSize,
  measure: Measure,
  by: LabelLead = 'code',
): LabelDrawn {
  const turned = size.height > 1.3 * size.width;
  const [width, height] = turned ? [size.height, size.width] : [size.width, size.height];
  const margin = Math.min(2, Math.max(0.8, height * 0.06));
  for (const withQr of [true, false]) {
    const qr = withQr ? qrShape(modules, width, height) : null;
    if (withQr && !qr) continue;
    const left = qr ? qr.right : margin;
    const room = { x: left, y: margin, width: width - left - margin, height: height - 2 * margin };
    const written = write(text, room, measure, by);
    if (!written) continue;
    return {
      shapes: [...(qr ? [qr.shape] : []), ...written.shapes],
      turned,
      told: [...(qr ? [] : [`no room for the QR code of ${text.code}`]), ...written.told],
    };
  }
  const needed = Math.ceil(widthOfCode(text.code, leastCode, measure) + 2 * margin);
  throw new RangeError(
    `${text.code} does not fit in readable type on a label of ${size.width} × ${size.height} mm; it needs at least ${needed} × ${Math.ceil(leastCode * (capitals + below) + 2 * margin)} mm`,
  );
}

function qrShape(modules: QrModules, width: number, height: number): { shape: Shape; right: number } | null {
  const count = modules.length + 2 * quietZone;
  // The quiet zone may reach the edge of the label, yet not beyond.
  const side = Math.min(height, width * 0.42, 32);
  const module = side / count;
  if (module < leastModule) return null;
  return {
    shape: {
      kind: 'qr',
      x: quietZone * module,
      y: (height - side) / 2 + quietZone * module,
      size: modules.length * module,
      modules,
    },
    right: side,
  };
}

const gap = 0.28;
const frame = 0.16;
const checkScale = 0.8;

/** Width of a code with its check character set apart in a frame. */
function widthOfCode(code: string, size: number, measure: Measure): number {
  const check = checkCharacter(code);
  const apart = check ? gap + 2 * frame + checkScale * Math.max(measure(check, 'heavy'), 0.6) : 0;
  return size * (measure(code, 'heavy') + apart);
}

/** Draws a code from the left upper corner, its check character after it in a frame. */
export function drawCode(code: string, x: number, y: number, size: number, measure: Measure): Shape[] {
  const width = size * measure(code, 'heavy');
  const baseline = y + capitals * size;
  const shapes: Shape[] = [{ kind: 'text', text: code, weight: 'heavy', x, y: baseline, size, width }];
  const check = checkCharacter(code);
  if (check === null) return shapes;
  const own = checkScale * size;
  const wide = Math.max(measure(check, 'heavy'), 0.6) * own;
  const boxX = x + width + gap * size;
  const line = Math.max(0.2, size * 0.045);
  return [
    ...shapes,
    {
      kind: 'box',
      x: boxX + line / 2,
      y: y + line / 2 - 0.08 * size,
      width: wide + 2 * frame * size - line,
      height: (capitals + 0.16) * size - line,
      line,
    },
    {
      kind: 'text',
      text: check,
      weight: 'heavy',
      x: boxX + frame * size + (wide - measure(check, 'heavy') * own) / 2,
      y: y + (capitals * size) / 2 + (capitals * own) / 2,
      size: own,
      width: measure(check, 'heavy') * own,
    },
  ];
}

interface Written {
  readonly shapes: readonly Shape[];
  readonly told: readonly string[];
}

function write(text: LabelText, room: Room, measure: Measure, by: LabelLead): Written | null {
  return by === 'name' && text.line !== '' ? nameFirst(text, room, measure) : codeFirst(text, room, measure);
}

function codeFirst(text: LabelText, room: Room, measure: Measure): Written | null {
  const widest = room.width / widthOfCode(text.code, 1, measure);
  const alone = text.line === '' && text.more === '';
  // 0.08 em above and below for the frame of the check character.
  const size = Math.min(widest, (room.height * (alone ? 1 : 0.6)) / (capitals + below + 0.08));
  if (size < leastCode) return null;
  const taken = size * (capitals + below + 0.08);
  const rest = { ...room, y: room.y + taken, height: room.height - taken };
  const lines = linesBelow(text, rest, size, measure);
  const used = taken + lines.height;
  // What is left over stands half above and half below.
  const down = Math.max(0, room.height - used) / 2;
  return {
    shapes: [...drawCode(text.code, room.x, room.y + 0.08 * size, size, measure), ...lines.shapes].map(
      (shape) => ({ ...shape, y: shape.y + down }),
    ),
    told: lines.told,
  };
}

function nameFirst(text: LabelText, room: Room, measure: Measure): Written | null {
  const codeSize = Math.min(
    room.width / widthOfCode(text.code, 1, measure),
    Math.max(leastCode, room.height * 0.16),
  );
  if (codeSize < leastCode) return null;
  const taken = codeSize * (capitals + below + 0.16);
  const above = { ...room, height: room.height - taken };
  const name = fitText(text.line, above, 'heavy', { least: leastLine, most: above.height }, measure);
  return {
    shapes: [
      ...name.shapes,
      ...drawCode(text.code, room.x, room.y + room.height - taken + 0.16 * codeSize, codeSize, measure),
    ],
    told: name.shortened ? [`the name on ${text.code} is shortened`] : [],
  };
}

function linesBelow(
  text: LabelText,
  room: Room,
  codeSize: number,
  measure: Measure,
): Written & { readonly height: number } {
  const most = Math.max(leastLine, codeSize * 0.55);
  const put = (line: string, height: number, from: number) =>
    fitText(line, { ...room, y: from, height }, 'heavy', { least: leastLine, most }, measure);
  const both = text.line !== '' && text.more !== '';
  let line = put(text.line || text.more, both ? room.height * 0.62 : room.height, room.y);
  if (both && line.shortened) line = put(text.line, room.height, room.y);
  const end = bottomOf(line.shapes, room.y);
  const more = both
    ? fitText(
        text.more,
        { ...room, y: end, height: room.y + room.height - end },
        'plain',
        { least: leastLine, most: Math.max(leastLine, most * 0.7) },
        measure,
      )
    : null;
  return {
    shapes: [...line.shapes, ...(more && !more.shortened ? more.shapes : [])],
    height: bottomOf([...line.shapes, ...(more && !more.shortened ? more.shapes : [])], room.y) - room.y,
    told: [
      ...(line.shortened ? [`the name or parentage on ${text.code} is shortened`] : []),
      ...(more?.shortened ? [`no room for “${text.more}” on ${text.code}`] : []),
    ],
  };
}

const bottomOf = (shapes: readonly Shape[], otherwise: number): number =>
  shapes.reduce(
    (low, shape) => (shape.kind === 'text' ? Math.max(low, shape.y + below * shape.size) : low),
    otherwise,
  );
