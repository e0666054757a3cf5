import type { LabelPage, Shape } from '@keelrow/breeding/labels';
import type { Page } from 'playwright-core';

/** How a photo differs from the sheet: as if held askew, out of focus, in poor light. */
export interface Photographed {
  /** Pixels of a millimetre of the sheet before it is tilted. */
  readonly scale: number;
  /** Degrees: turned in its plane, tipped back, tipped sideways. */
  readonly turn: number;
  readonly back: number;
  readonly side: number;
  /** Pixels. */
  readonly blur: number;
  /** Standard deviation of the noise, of 255 steps. */
  readonly noise: number;
  /** Share of the light that is left at the corners. */
  readonly light: number;
}

const frame = { width: 2000, height: 1500 };

/** Draws a page of shapes as paper on soil and photographs it: a JPEG of 2000 × 1500 pixels. */
export async function photograph(page: Page, sheet: LabelPage, how: Photographed): Promise<Buffer> {
  await page.setViewportSize(frame);
  await page.setContent(`<!doctype html><style>
    body { margin: 0; width: ${frame.width}px; height: ${frame.height}px; overflow: hidden; display: grid; place-items: center;
      background: repeating-linear-gradient(27deg, #4d3b2b 0 9px, #5c4a35 9px 17px, #413225 17px 22px); perspective: ${frame.width}px; }
    svg { flex: none; background: #f4f2ea; font-family: sans-serif; filter: blur(${how.blur}px);
      transform: rotateX(${how.back}deg) rotateY(${how.side}deg) rotate(${how.turn}deg); }
  </style>${drawing(sheet, how.scale)}`);
  const shot = await page.screenshot({ type: 'png' });
  const jpeg = await page.evaluate(
    async ({ png, noise, light }) => {
      const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
      const canvas = new OffscreenCanvas(picture.width, picture.height);
      const context = canvas.getContext('2d')!;
      context.drawImage(picture, 0, 0);
      const pixels = context.getImageData(0, 0, picture.width, picture.height);
      // A generator of its own, so that the photo is the same in every run: Park and Miller's minimal standard.
      let seed = 4;
      const uniform = (): number => {
        seed = (seed * 48271) % 2147483647;
        return seed / 2147483647;
      };
      for (let at = 0; at < pixels.data.length; at += 4) {
        const [x, y] = [(at / 4) % picture.width, Math.floor(at / 4 / picture.width)];
        const off = Math.hypot(x / picture.width - 0.5, y / picture.height - 0.5) / Math.SQRT1_2;
        const lit = 1 - (1 - light) * off ** 2;
        const normal = Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
        for (let channel = 0; channel < 3; channel++) {
          pixels.data[at + channel] = pixels.data[at + channel]! * lit + noise * normal;
        }
      }
      context.putImageData(pixels, 0, 0);
      const bytes = await (await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.75 })).arrayBuffer();
      return btoa(Array.from(new Uint8Array(bytes), (byte) => String.fromCharCode(byte)).join(''));
    },
    { png: shot.toString('base64'), noise: how.noise, light: how.light },
  );
  return Buffer.from(jpeg, 'base64');
}

function drawing({ width, height, labels }: LabelPage, scale: number): string {
  const all = labels.map(
    ({ x, y, height: tall, turned, shapes }) =>
      `<g transform="translate(${x} ${turned ? y + tall : y})${turned ? ' rotate(-90)' : ''}">${shapes.map(drawn).join('')}</g>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width * scale}" height="${height * scale}" viewBox="0 0 ${width} ${height}">${all.join('')}</svg>`;
}

function drawn(shape: Shape): string {
  switch (shape.kind) {
    case 'text':
      return `<text x="${shape.x}" y="${shape.y}" font-size="${shape.size}" font-weight="800" textLength="${shape.width}" lengthAdjust="spacingAndGlyphs">${shape.text.replace(/[<&]/g, '')}</text>`;
    case 'box':
      return `<rect x="${shape.x}" y="${shape.y}" width="${shape.width}" height="${shape.height}" fill="none" stroke="#000" stroke-width="${shape.line}"/>`;
    case 'qr': {
      const dark = shape.modules.flatMap((row, down) =>
        row.flatMap((on, across) => (on ? [`M${across} ${down}h1v1h-1z`] : [])),
      );
      return `<path transform="translate(${shape.x} ${shape.y}) scale(${shape.size / shape.modules.length})" d="${dark.join('')}"/>`;
    }
  }
}
