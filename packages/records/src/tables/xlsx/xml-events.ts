import { TextDecoder } from 'node:util';
import { SaxesParser } from 'saxes';
import { asDamage, damaged } from './archive.ts';

export interface XmlHandlers {
  open(name: string, attributes: Readonly<Record<string, string>>): void;
  close?(name: string): void;
  text?(text: string): void;
}

/** Bytes within which something must begin or end: a longer text stands in no spreadsheet, and would fill the memory. */
const longestSilence = 8_000_000;

/**
 * Reads XML as it comes, telling elements and texts to the handlers; yields after each chunk, so that what the handlers
 * gathered can be handed on. Names come without their prefix. Entities other than XML's own five are an error, never expanded.
 * @throws TableError where it is not well-formed
 */
export async function* xmlEvents(
  file: string,
  chunks: AsyncIterable<Uint8Array>,
  handlers: XmlHandlers,
): AsyncGenerator<void> {
  const parser = new SaxesParser({ xmlns: false, position: false });
  let silence = 0;
  parser.on('opentag', (tag) => {
    silence = 0;
    handlers.open(localName(tag.name), tag.attributes as Record<string, string>);
  });
  parser.on('closetag', (tag) => {
    silence = 0;
    handlers.close?.(localName(tag.name));
  });
  parser.on('text', (text) => handlers.text?.(text));
  parser.on('cdata', (text) => handlers.text?.(text));
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const parse = (text: string) => {
    try {
      parser.write(text);
    } catch (error) {
      throw asDamage(file, error);
    }
  };
  for await (const chunk of chunks) {
    silence += chunk.length;
    if (silence > longestSilence) throw damaged(file, 'one of its texts is endless');
    parse(decoded(file, decoder, chunk));
    yield;
  }
  parse(decoded(file, decoder));
  try {
    parser.close();
  } catch (error) {
    throw asDamage(file, error);
  }
  yield;
}

/** Reads a whole part of a spreadsheet file. */
export async function readXml(
  file: string,
  chunks: AsyncIterable<Uint8Array>,
  handlers: XmlHandlers,
): Promise<void> {
  for await (const _ of xmlEvents(file, chunks, handlers));
}

function decoded(file: string, decoder: TextDecoder, chunk?: Uint8Array): string {
  try {
    return chunk ? decoder.decode(chunk, { stream: true }) : decoder.decode();
  } catch {
    throw damaged(file, 'it is not UTF-8');
  }
}

function localName(name: string): string {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
}

/** Value of an attribute by its name without prefix. */
export function attribute(attributes: Readonly<Record<string, string>>, name: string): string | undefined {
  if (name in attributes) return attributes[name];
  for (const key in attributes) if (localName(key) === name) return attributes[key];
  return undefined;
}
