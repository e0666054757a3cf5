import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync, strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openTable, TableError } from '../../src/tables/index.ts';
import { openBytes } from './reading-help.ts';

const letter = `Dear Tom,\n\nthank you for the seed of the white one, which came up well this spring, all but two.
I have set them out in the long bed by the wall, where, as you know, it is dry.\n\nYours,\nAva\n`;
const png = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex');
const compound = Buffer.concat([Buffer.from('d0cf11e0a1b11ae1', 'hex'), Buffer.alloc(600)]);
const locked = Buffer.concat([compound, Buffer.from('EncryptedPackage', 'utf16le')]);

// source: each format's own leading bytes; PNG: RFC 2083 section 3.1; PDF: ISO 32000-1 7.5.2; compound file: MS-CFB 2.2
describe('files that are no table', () => {
  it.each<[string, string | Uint8Array, RegExp]>([
    ['an empty file', '', /is empty/],
    ['empty lines', '\n\n , \n', /nothing but empty rows/],
    ['a picture', png, /a picture.*Type the table/],
    ['a PDF', '%PDF-1.7\n%âãÏÓ\n', /PDF document.*Ask for the table/],
    ['an old .xls', compound, /old binary form.*save it as \.xlsx/],
    ['a locked spreadsheet', locked, /locked with a password.*take the password off/],
    [
      'a web page named .xls',
      '<html><body><table><tr><td>1</td></tr></table>',
      /a web page.*save it as \.xlsx/,
    ],
    ['a web page with a mark first', '\ufeff\n<!DOCTYPE html>\n<html></html>', /a web page/],
    ['an XML document', '<?xml version="1.0"?><plants/>', /XML document/],
    ['a JSON document', '[{"code": 1}]', /JSON document/],
    ['a packed file', gzipSync(strToU8('a,b\n1,2\n')), /compressed file.*Unpack it/],
    [
      'a zip of something else',
      zipSync({ 'plants.csv': strToU8('a,b\n') }),
      /zip archive without a spreadsheet.*Unpack it/,
    ],
    ['an OpenDocument sheet', zipSync({ 'content.xml': strToU8('<a/>') }), /OpenDocument.*save it as \.xlsx/],
    ['a text document', zipSync({ 'word/document.xml': strToU8('<a/>') }), /text document/],
    ['a letter', letter, /is a text, not a table/],
    ['zero bytes', Buffer.from([0x61, 0x00, 0x01, 0x2c, 0x0a]), /zero bytes/],
  ])('says so of %s, with what to do', async (_, content, words) => {
    const error = await openBytes(content, {}, 'plants.xls').catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(TableError);
    expect((error as TableError).message).toMatch(words);
    expect((error as TableError).remedy).not.toBe('');
  });

  it('goes by the content, whatever the name says', async () => {
    expect((await openBytes('PK,name\n1,a\n', {}, 'plants.xlsx')).headers).toEqual(['PK', 'name']);
  });

  it('says what is wrong with a path', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'keelrow-tables-'));
    try {
      await expect(openTable({ path: join(folder, 'none.csv') })).rejects.toThrow(
        /There is no file none\.csv/,
      );
      await expect(openTable({ path: folder })).rejects.toThrow(/is not a file/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
