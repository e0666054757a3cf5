import {
  comparePair,
  type EstimatesReport,
  type Evaluation,
  evaluate,
  type PairCompared,
  reportEstimates,
} from '@keelrow/breeding/evaluation';
import { latestAct, type Programme, RecordsError, readTraitNotes, type TraitNotes } from '@keelrow/records';
import type { Control } from './tasks.ts';

interface Reckoned {
  readonly data: TraitNotes;
  readonly evaluation: ReturnType<typeof evaluate>;
  readonly report: EstimatesReport;
}

/** Fits kept for questions on pairs; the oldest goes first. */
const keptFits = 4;

/** Estimates from the records, each kept until anything in the programme changes. */
export class Reckoning {
  readonly #programme: Programme;
  readonly #kept = new Map<string, Reckoned>();

  constructor(programme: Programme) {
    this.#programme = programme;
  }

  async estimates(trait: string, control: Control): Promise<EstimatesReport> {
    return (await this.#reckon(trait, control)).report;
  }

  async compare(trait: string, a: string, b: string, control: Control): Promise<PairCompared> {
    const { data, evaluation, report } = await this.#reckon(trait, control);
    if (evaluation.fitted === null)
      throw new RecordsError(
        'input',
        report.couldNotSeparate[0] ?? 'nothing can be estimated from these notes',
      );
    for (const id of [a, b]) {
      if (!report.estimates.some((estimate) => estimate.id === id)) {
        throw new RecordsError(
          'absent',
          `“${data.genets.get(id)?.code ?? id}” has no notes of ${report.trait.name}`,
          'note it, then compare',
        );
      }
    }
    control.onProgress(null, 'reckoning what more years would tell');
    return comparePair(evaluation as Evaluation, a, b, report.trait.unit);
  }

  async #reckon(trait: string, control: Control): Promise<Reckoned> {
    const key = `${trait} ${await latestAct(this.#programme.read)}`;
    const kept = this.#kept.get(key);
    if (kept) return kept;
    control.onProgress(null, 'reading notes');
    const data = await readTraitNotes(this.#programme.read, trait);
    if (!data)
      throw new RecordsError(
        'absent',
        `there is no trait “${trait}”`,
        'choose one of the traits that are noted',
      );
    control.onProgress(null, 'fitting the model');
    const evaluation = evaluate(data.notes, {
      isCancelled: control.isStopped,
      onProgress: ({ iteration }) => control.onProgress(null, `fitting the model, round ${iteration}`),
    });
    const reckoned = { data, evaluation, report: reportEstimates(evaluation, data.notes, data) };
    this.#kept.set(key, reckoned);
    if (this.#kept.size > keptFits) this.#kept.delete(this.#kept.keys().next().value!);
    return reckoned;
  }
}
