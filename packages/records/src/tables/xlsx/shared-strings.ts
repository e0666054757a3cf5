import { limits } from '../limits.ts';
import type { Archive } from './archive.ts';
import { unescapeText } from './escaped-text.ts';
import { readXml } from './xml-events.ts';

/** The texts that cells refer to by number: ECMA-376 part 1, 18.4. Runs in different type are joined; readings (rPh) left out. */
export async function readSharedStrings(archive: Archive, part: string | undefined): Promise<string[]> {
  const strings: string[] = [];
  if (part === undefined) return strings;
  let text = '';
  let inText = false;
  let phonetic = false;
  await readXml(archive.name, archive.read(part, limits.partBytes), {
    open(name) {
      if (name === 'si') text = '';
      else if (name === 'rPh') phonetic = true;
      else if (name === 't') inText = !phonetic;
    },
    text(piece) {
      if (inText) text += piece;
    },
    close(name) {
      if (name === 'si') strings.push(unescapeText(text));
      else if (name === 'rPh') phonetic = false;
      else if (name === 't') inText = false;
    },
  });
  return strings;
}
