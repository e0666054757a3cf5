import { checkCharacter, labelPayload, readLabelCode } from '@keelrow/breeding/labels';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const alphabet = [...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const code = fc.array(fc.constantFrom(...alphabet), { minLength: 1, maxLength: 20 });

describe('check character, ISO/IEC 7064 MOD 37,36', () => {
  it('agrees with published numbers that carry one', () => {
    // GRid Standard 2.1 (IFPI), its example, as the package soundways/iso7064 shows it.
    expect(checkCharacter('A1-2425G-ABC1234002')).toBe('M');
    // ISAN, ISO 15706-2: the number B159-D8FA-0124-0000-K, as validators of ISANs test it.
    expect(checkCharacter('B159-D8FA-0124-0000')).toBe('K');
    // The same, 0000-3BAB-9352-0000-G.
    expect(checkCharacter('0000-3BAB-9352-0000')).toBe('G');
    // ISAN 0000-0000-D07A-0090-Q, of ISO 15706: from memory.
    expect(checkCharacter('0000-0000-D07A-0090')).toBe('Q');
  });

  it('is 0-9 or A-Z, skips what is neither, and minds no capitals', () => {
    expect(checkCharacter('x27-06a')).toBe(checkCharacter('X2706A'));
    expect(checkCharacter('é–/ ')).toBeNull();
    expect(checkCharacter('')).toBeNull();
    fc.assert(
      fc.property(code, (characters) => alphabet.includes(checkCharacter(characters.join(''))!)),
      { seed: 4, numRuns: 500 },
    );
  });

  it('catches every single wrong character', () => {
    fc.assert(
      fc.property(code, fc.nat(), (characters, at) => {
        const place = at % characters.length;
        const given = checkCharacter(characters.join(''));
        return alphabet.every(
          (other) =>
            other === characters[place] || checkCharacter(characters.with(place, other).join('')) !== given,
        );
      }),
      { seed: 4, numRuns: 2_000 },
    );
  });

  it('catches 99.8% of two neighbours that changed places; the share missed is told', () => {
    let changed = 0;
    let missed = 0;
    for (const before of alphabet) {
      for (const a of alphabet) {
        for (const b of alphabet) {
          if (a === b) continue;
          changed += 1;
          if (checkCharacter(`${before}${a}${b}7`) === checkCharacter(`${before}${b}${a}7`)) missed += 1;
        }
      }
    }
    // docs/labels.md tells this figure.
    expect(Number(((100 * missed) / changed).toFixed(2))).toBe(0.16);
  });
});

describe('reading what stands on a label', () => {
  it('knows a code with its check character set apart', () => {
    const check = checkCharacter('2031-004-3/1')!;
    for (const gap of [' ', '  ', '=', ' = ', ' · ']) {
      expect(readLabelCode(`2031-004-3/1${gap}${check.toLowerCase()}`)[0]).toEqual({
        code: '2031-004-3/1',
        check: 'right',
      });
    }
  });

  it('reads a code without one as it is, and a wrong one last', () => {
    expect(readLabelCode(' 2031-004-3/1 ')).toEqual([
      { code: '2031-004-3/1', check: 'none' },
      { code: '2031-004-3/', check: checkCharacter('2031-004-3/') === '1' ? 'right' : 'wrong' },
    ]);
    const wrong = checkCharacter('2031-004-3/1') === 'A' ? 'B' : 'A';
    expect(readLabelCode(`2031-004-3/1 ${wrong}`).at(-1)).toEqual({ code: '2031-004-3/1', check: 'wrong' });
    // An old tag whose code ends in a blank and a letter is still found.
    expect(readLabelCode('Row 4 B').map(({ code: read }) => read)).toContain('Row 4 B');
    expect(readLabelCode('   ')).toEqual([]);
    expect(readLabelCode('7')).toEqual([{ code: '7', check: 'none' }]);
  });

  it('always offers the code that was printed, with and without its check character', () => {
    fc.assert(
      fc.property(code, fc.constantFrom('', ' ', '='), (characters, gap) => {
        const printed = characters.join('');
        const check = checkCharacter(printed)!;
        return (
          readLabelCode(printed)[0]!.code === printed &&
          readLabelCode(`${printed}${gap}${check}`).some(
            (reading) => reading.code === printed && reading.check === 'right',
          )
        );
      }),
      { seed: 4, numRuns: 1_000 },
    );
  });

  it('puts the code itself into the QR code', () => {
    expect(labelPayload('S27-06a')).toBe('S27-06a');
  });
});
