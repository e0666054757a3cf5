import { evaluate } from '@keelrow/breeding/evaluation';
import { expect, it, vi } from 'vitest';
import { crossed, genets, notesOf } from './layouts.ts';

/** Stands in for equations that no memory holds, which take too long to build here. */
const refused = vi.hoisted(() => ({ terms: new Set<string>() }));
vi.mock('@keelrow/quant', async (original) => {
  const quant = await original<typeof import('@keelrow/quant')>();
  return {
    ...quant,
    fitModel: (...given: Parameters<typeof quant.fitModel>) => {
      if (given[1].random.some((term) => refused.terms.has(term)))
        throw new quant.ModelError(
          'the model has 90000 equations, whose solution needs more memory than there is',
          'Fit fewer rows',
        );
      return quant.fitModel(...given);
    },
  };
});

const notes = notesOf(
  crossed(crossed(genets(6), [1, 2]), [2030, 2031]).map(([[genet, k], year]) => ({
    genet,
    year,
    plant: `${genet}/${k}`,
  })),
);

it('a model too large for memory is fitted without the terms that are too many, and that is said', () => {
  refused.terms = new Set(['plant']);
  const evaluation = evaluate(notes);
  expect(evaluation.fitted).not.toBeNull();
  expect(evaluation.chosen.couldNotSeparate.at(-1)).toBe(
    '“Single plant of a genet” was left out, as it could not be told from the rest or be worked out: the model has 90000 equations, whose solution needs more memory than there is. Fit fewer rows.',
  );
  expect(evaluation.chosen.tookIntoAccount.join()).not.toMatch(/single plant/);
  expect(evaluation.chosen.considered.find(({ term }) => term === 'plant')).toMatchObject({ entered: false });
});

it('and where nothing smaller can be fitted, nothing is estimated', () => {
  refused.terms = new Set(['plant', 'genet']);
  const { fitted, chosen } = evaluate(notes);
  expect(fitted).toBeNull();
  expect(chosen.impossible).toMatch(/^Nothing can be estimated: the model has 90000 equations/);
});
