import decodeQR from 'qr/decode.js';

/** Pixels of a picture, four bytes each, as a canvas hands them out. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** How hard to look: a frame of a camera is followed by the next one, a photo by nothing. */
export type Effort = 'frame' | 'photo';

/**
 * Texts of the QR codes in a picture. The reader finds one code a look, and several codes side by side can mislead it:
 * a photo is therefore looked at whole, then in overlapping windows of a half, a third and a quarter of its sides, until
 * there is one code and no sign of a second.
 */
export function findCodes(picture: Pixels, effort: Effort): string[] {
  const whole = read(picture, effort);
  if (effort === 'frame') {
    // The middle of the frame, where the label is held, if the whole of it tells nothing.
    const middle = whole ?? read(part(picture, 0.2, 0.2, 0.6), effort);
    return middle === null ? [] : [middle];
  }
  const found = new Set<string>(whole === null ? [] : [whole]);
  for (const parts of [2, 3, 4]) {
    const steps = 2 * parts - 1;
    for (let down = 0; down < steps; down++) {
      for (let across = 0; across < steps; across++) {
        const text = read(part(picture, across / (2 * parts), down / (2 * parts), 1 / parts), effort);
        if (text !== null) found.add(text);
      }
    }
    if (found.size === 1) break;
  }
  return [...found];
}

/** Time (ms) for a second look at one window of a photo. */
const secondLook = 60;

function read(picture: Pixels, effort: Effort): string | null {
  try {
    return decodeQR(picture, effort === 'photo' ? { effort: Infinity, timeLimit: secondLook } : {});
  } catch {
    // The reader throws where it finds no code.
    return null;
  }
}

/** A square-on piece of a picture: from these shares of its sides, of this share of them. */
function part({ width, height, data }: Pixels, fromX: number, fromY: number, share: number): Pixels {
  const [x, y] = [Math.floor(fromX * width), Math.floor(fromY * height)];
  const [w, h] = [
    Math.min(Math.ceil(share * width), width - x),
    Math.min(Math.ceil(share * height), height - y),
  ];
  const cut = new Uint8ClampedArray(w * h * 4);
  for (let row = 0; row < h; row++) {
    const start = ((y + row) * width + x) * 4;
    cut.set(data.subarray(start, start + w * 4), row * w * 4);
  }
  return { width: w, height: h, data: cut };
}
