import { inWords, measureOf, unitInWords } from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';

// Factors: 1 in = 2.54 cm exactly; 32 °F at 0 °C, 1.8 °F to 1 °C (NIST Special Publication 811, appendix B.8).
describe('a measure', () => {
  it('shows numbers and differences in the units of the programme, and takes them back', () => {
    const [inches, fahrenheit] = [measureOf('cm', 'us'), measureOf('°C', 'us')];
    expect([inches.unit, inches.toShown(254), inches.toStored(100)]).toEqual(['in', 100, 254]);
    expect([fahrenheit.toShown(-20), fahrenheit.spanToShown(10)]).toEqual([-4, 18]);
    expect(measureOf('cm', 'metric').toShown(254)).toBe(254);
  });

  it('leaves counts, scores and units of the breeder’s own as they are', () => {
    for (const unit of [null, 'leaves']) {
      const own = measureOf(unit, 'us');
      expect([own.unit, own.toShown(7), own.toStored(7), own.spanToShown(7)]).toEqual([unit, 7, 7, 7]);
    }
  });

  it('is written into sentences', () => {
    expect(inWords(15.2, measureOf('cm', 'metric'))).toBe('15.2 cm');
    expect(inWords(15.2, measureOf('cm', 'us'))).toBe('5.98 in');
    expect(inWords(-3.5, measureOf('°C', 'metric'))).toBe('−3.5 °C');
    expect(inWords(4, measureOf(null, 'us'))).toBe('4');
    expect([
      unitInWords('cm', 'us'),
      unitInWords('cm', 'metric'),
      unitInWords('%', 'us'),
      unitInWords(null, 'us'),
    ]).toEqual(['inches', 'cm', '%', null]);
  });
});
