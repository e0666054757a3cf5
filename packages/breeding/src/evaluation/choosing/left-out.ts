import type { ChosenModel } from './choose-model.ts';
import { takenInWords } from './considered.ts';
import type { LeftOut } from './fit-what-can.ts';

/** The choice of the model after the fit had to leave out terms, with a sentence for each. */
export function leftOutInWords(chosen: ChosenModel, leftOut: readonly LeftOut[]): ChosenModel {
  if (leftOut.length === 0) return chosen;
  const gone = new Map(leftOut.map(({ term, problem }) => [term, problem]));
  const sentence = (words: string, problem: string) =>
    `“${words}” was left out, as it could not be told from the rest or be worked out: ${problem}`;
  const taken = new Set(chosen.considered.filter(({ term }) => gone.has(term)).map(({ why }) => why));
  const considered = chosen.considered.map((one) => {
    const problem = gone.get(one.term);
    return problem === undefined ? one : { ...one, entered: false, why: sentence(one.words, problem) };
  });
  return {
    ...chosen,
    considered,
    tookIntoAccount: chosen.tookIntoAccount.filter((took) => !taken.has(takenInWords(took))),
    couldNotSeparate: [
      ...chosen.couldNotSeparate,
      ...considered.filter(({ term }) => gone.has(term)).map(({ why }) => why),
    ],
    kinship: gone.has('additive')
      ? {
          used: false,
          took: null,
          words: [
            'What a genet hands on could not be told from what it alone is, so each is judged by its own notes alone.',
          ],
        }
      : chosen.kinship,
  };
}
