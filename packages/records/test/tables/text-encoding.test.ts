import iconv from 'iconv-lite';
import { describe, expect, it } from 'vitest';
import { finding, openBytes, openFixture, textsOf } from './reading-help.ts';

const text = 'code;Höhe (cm)\r\n1;12,5 °\r\n2;„Mondpfad“ – weiß\r\n';
const cells = [
  ['1', '12,5 °'],
  ['2', '„Mondpfad“ – weiß'],
];

describe('encodings', () => {
  it.each([
    ['utf-8', Buffer.from(text)],
    ['utf-8', Buffer.from(`\ufeff${text}`)],
    ['utf-16le', iconv.encode(text, 'utf16le', { addBOM: true })],
    ['utf-16be', iconv.encode(text, 'utf-16be', { addBOM: true })],
    ['windows-1252', iconv.encode(text, 'windows-1252')],
  ])('tells %s by itself', async (encoding, bytes) => {
    const table = await openBytes(bytes);
    expect(table.encoding).toBe(encoding);
    expect(table.headers).toEqual(['code', 'Höhe (cm)']);
    expect(await textsOf(table)).toEqual(cells);
  });

  it('says that Windows-1252 is a guess, and how sure it is', async () => {
    const sure = await openBytes(iconv.encode(text, 'windows-1252'));
    expect(finding(sure, 'encoding-guessed')).toMatchObject({ confidence: 'high' });
    const mixed = Buffer.concat([Buffer.from('code;name\n1;Krämer\n2;'), Buffer.from([0xe4, 0x0a])]);
    expect(finding(await openBytes(mixed), 'encoding-guessed')).toMatchObject({ confidence: 'low' });
    const oldMac = iconv.encode('code;name\r1;Krämer\r2;Dorée\r', 'macroman');
    expect(finding(await openBytes(oldMac), 'encoding-guessed')).toMatchObject({ confidence: 'low' });
    expect(await textsOf(await openBytes(oldMac, { encoding: 'mac-roman' }))).toEqual([
      ['1', 'Krämer'],
      ['2', 'Dorée'],
    ]);
  });

  // source: the names as decoded by Python's codec cp1252 from the same bytes
  it('reads the accents of real cultivar names in Windows-1252', async () => {
    const table = await openFixture('fruit_bloom_cp1252.csv');
    expect(table.encoding).toBe('windows-1252');
    expect(new Set((await textsOf(table)).map((row) => row[1]))).toEqual(new Set(['Mateur', 'Ambrunés']));
  });

  it('finds the one accented letter that stands far down', async () => {
    const plain = `code,name\n${'1,Moon Path\n'.repeat(100_000)}`;
    const bytes = Buffer.concat([Buffer.from(plain), iconv.encode('2,Dorée\n', 'windows-1252')]);
    const rows = await textsOf(await openBytes(bytes));
    expect(rows.at(-1)).toEqual(['2', 'Dorée']);
  });

  it('does not take a letter cut by the boundary of two chunks for another encoding', async () => {
    for (const shift of [0, 1, 2, 3]) {
      const head = `code,name\n1,${'x'.repeat((1 << 18) - 13 + shift)}`;
      const table = await openBytes(`${head}花é\n`);
      expect(table.encoding).toBe('utf-8');
      expect((await textsOf(table))[0]?.[1]?.slice(-3)).toBe('x花é');
    }
  });

  it.each(['ï..code', 'ï»¿code', '\ufeff\ufeffcode'])(
    'cleans %j of its mangled byte-order mark',
    async (name) => {
      const table = await openBytes(`${name},name\n1,a\n`);
      expect(table.headers).toEqual(['code', 'name']);
      expect(finding(table, 'mark-in-header-removed') !== undefined || name.startsWith('\ufeff')).toBe(true);
    },
  );
});
