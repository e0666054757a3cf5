import { describe, expect, it } from 'vitest';
import { finding, openBytes, rowsOf, textsOf } from './reading-help.ts';

describe('header rows', () => {
  it('passes over title rows and tells of them', async () => {
    const table = await openBytes(
      'Garden notes 2026,,,\nAva and Tom,,,\n,,,\ncode,height,width,remark\n1,80,60,\n2,82,61,tall\n',
    );
    expect(table.headers).toEqual(['code', 'height', 'width', 'remark']);
    expect(table.headerRow).toBe(4);
    expect(finding(table, 'title-rows')?.places).toEqual([{ row: 1 }, { row: 2 }]);
    expect((await rowsOf(table)).map(({ row }) => row)).toEqual([5, 6]);
  });

  it('does not take a title right above the names for a group of columns', async () => {
    const table = await openBytes('Garden notes,,\ncode,height,width\n1,80,60\n2,81,61\n');
    expect(table.headers).toEqual(['code', 'height', 'width']);
  });

  it('joins names over two rows where the upper one is left to fill', async () => {
    const table = await openBytes(
      'Plant,Height,,Width,\n,2026,2027,2026,2027\n1,80,82,60,61\n2,70,75,50,55\n',
    );
    expect(table.headers).toEqual([
      'Plant',
      'Height · 2026',
      'Height · 2027',
      'Width · 2026',
      'Width · 2027',
    ]);
    expect(table.headerRow).toBe(2);
    expect(finding(table, 'header-in-two-rows')).toBeDefined();
    expect((await textsOf(table))[0]).toEqual(['1', '80', '82', '60', '61']);
  });

  it('joins them where few upper names stand over many columns', async () => {
    const table = await openBytes(
      ',,2026,,,2027,,\ncode,bed,height,width,score,height,width,score\n1,A,80,60,3,82,61,4\n2,A,81,62,3,82,64,4\n',
    );
    expect(table.headers).toEqual([
      'code',
      'bed',
      '2026 · height',
      '2026 · width',
      '2026 · score',
      '2027 · height',
      '2027 · width',
      '2027 · score',
    ]);
  });

  it('keeps a first row of data out of the header, though columns have no name', async () => {
    const table = await openBytes('Plant,Height,,Width,\n1,80,82,60,61\n2,70,75,50,55\n');
    expect(table.headerRow).toBe(1);
    expect(table.headers).toEqual(['Plant', 'Height', '', 'Width', '']);
    expect(finding(table, 'header-missing')?.places).toEqual([{ row: 1, column: 3 }]);
  });

  it('takes a row of units into the names', async () => {
    const table = await openBytes('code,height,weight\n,cm,(g)\n1,80,12\n2,82,14\n');
    expect(table.headers).toEqual(['code', 'height (cm)', 'weight (g)']);
    expect(await textsOf(table)).toHaveLength(2);
  });

  it('leaves out repetitions of the header and tells where', async () => {
    const table = await openBytes('code,height\n1,80\ncode,height\n2,81\nCode,height\n');
    expect(await textsOf(table)).toEqual([
      ['1', '80'],
      ['2', '81'],
      ['Code', 'height'],
    ]);
    expect(finding(table, 'header-repeated')).toMatchObject({ count: 1, places: [{ row: 3 }] });
  });

  it('never takes a value for a repeated header in a list of one column', async () => {
    expect(await textsOf(await openBytes('name\nname\nother\n'))).toEqual([['name'], ['other']]);
  });

  it('drops blank columns at the end and blank rows anywhere', async () => {
    const table = await openBytes('code,height,,\n1,80,,\n,,,\n2,81,,\n ,  ,,\n,,,\n');
    expect(table.headers).toEqual(['code', 'height']);
    expect(await textsOf(table)).toEqual([
      ['1', '80'],
      ['2', '81'],
    ]);
  });

  it('keeps and tells values to the right of the last name, far down', async () => {
    const table = await openBytes(`code,height\n${'1,80\n'.repeat(500)}2,81,lost?\n`);
    expect((await textsOf(table)).at(-1)).toEqual(['2', '81', 'lost?']);
    expect(finding(table, 'cell-beyond-header')?.places).toEqual([{ row: 502, column: 3 }]);
  });

  it('tells of a name that stands twice and of a first row that is data', async () => {
    expect(finding(await openBytes('code,height,height\n1,2,3\n'), 'header-twice')?.places).toEqual([
      { row: 1, column: 3 },
    ]);
    expect(
      finding(await openBytes('1,80,2027-04-03\n2,81,2027-04-04\n'), 'header-looks-like-data'),
    ).toBeDefined();
  });

  it('obeys the person, and says when there is no such row', async () => {
    const text = 'a,b\nc,d\ne,f\n';
    expect((await openBytes(text, { headerRow: 2 })).headers).toEqual(['c', 'd']);
    expect((await openBytes(text, { headerRow: [1, 2] })).headers).toEqual(['a · c', 'b · d']);
    await expect(openBytes(text, { headerRow: 9 })).rejects.toThrow(/no such header row/);
  });

  it('begins its findings anew with each reading of the rows', async () => {
    const table = await openBytes('code,height\n1,80\ncode,height\n');
    await rowsOf(table);
    await rowsOf(table);
    expect(finding(table, 'header-repeated')?.count).toBe(1);
  });
});
