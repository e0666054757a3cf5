import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LabelPage } from '@keelrow/breeding/labels';
import type { Page } from 'playwright-core';
import { photograph } from './printed-photo.ts';

const size = { width: 640, height: 480 };

/**
 * A short film of a label that comes nearer, for the browser's false camera: YUV4MPEG2 as its manual page describes it,
 * in grey. Returns the path of the file.
 */
export async function filmOf(studio: Page, label: LabelPage): Promise<string> {
  const frames: Buffer[] = [];
  for (const scale of [4, 9, 16]) {
    const photo = await photograph(studio, label, {
      scale,
      turn: 8,
      back: 12,
      side: -10,
      blur: 1,
      noise: 8,
      light: 0.7,
    });
    const grey = await studio.evaluate(
      async ({ jpeg, width, height }) => {
        const picture = await createImageBitmap(await (await fetch(`data:image/jpeg;base64,${jpeg}`)).blob());
        const canvas = new OffscreenCanvas(width, height);
        const context = canvas.getContext('2d')!;
        context.drawImage(picture, 0, 0, width, height);
        const { data } = context.getImageData(0, 0, width, height);
        let text = '';
        for (let at = 0; at < data.length; at += 4)
          text += String.fromCharCode(
            Math.round(0.299 * data[at]! + 0.587 * data[at + 1]! + 0.114 * data[at + 2]!),
          );
        return btoa(text);
      },
      { jpeg: photo.toString('base64'), ...size },
    );
    const colourless = Buffer.alloc(size.width * size.height * 0.5, 128);
    const frame = Buffer.concat([Buffer.from('FRAME\n'), Buffer.from(grey, 'base64'), colourless]);
    for (let repeat = 0; repeat < 10; repeat++) frames.push(frame);
  }
  const path = join(mkdtempSync(join(tmpdir(), 'keelrow-film-')), 'label.y4m');
  writeFileSync(
    path,
    Buffer.concat([
      Buffer.from(`YUV4MPEG2 W${size.width} H${size.height} F10:1 Ip A1:1 C420jpeg\n`),
      ...frames,
    ]),
  );
  return path;
}
