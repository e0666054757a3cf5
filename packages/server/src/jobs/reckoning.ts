import {
  type BestOf,
  bestOf,
  comparePair,
  type EstimatesReport,
  type Evaluation,
  evaluate,
  type InformationParts,
  informationParts,
  type PairCompared,
  reportEstimates,
  type TraitModel,
  traitModel,
  winterSurvival,
} from '@keelrow/breeding/evaluation';
import { unitInWords } from '@keelrow/breeding/facts';
import {
  latestAct,
  type Programme,
  RecordsError,
  readPedigree,
  readPlantIndex,
  readPlantWinters,
  readSettings,
  readTraitNotes,
  type TraitNotes,
} from '@keelrow/records';
import type { WintersReport } from '../contract/estimates.ts';
import type { Control } from './tasks.ts';

interface Reckoned {
  readonly data: TraitNotes;
  readonly evaluation: ReturnType<typeof evaluate>;
  readonly report: EstimatesReport;
}

/** Genets of the fits kept for further questions, all traits together; the oldest fit goes first. */
const keptGenets = 60_000;

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
    const { evaluation, report } = await this.#fitted(trait, [a, b], control);
    control.onProgress(null, 'reckoning what more notes would tell');
    return comparePair(evaluation, a, b, report.trait.unit);
  }

  /** Where the estimate of a genet came from. */
  async information(trait: string, genet: string, control: Control): Promise<InformationParts> {
    const { evaluation } = await this.#fitted(trait, [genet], control);
    return informationParts(evaluation, genet);
  }

  /** The chance of each genet to be among the best k. */
  async best(trait: string, k: number, control: Control): Promise<BestOf> {
    const { evaluation, report } = await this.#fitted(trait, [], control);
    control.onProgress(null, 'drawing what the true values may be');
    return bestOf(evaluation, k, report.trait.wanted);
  }

  /** The model of a trait with what is left over at each note. */
  async model(trait: string, control: Control): Promise<TraitModel> {
    const { data, evaluation, report } = await this.#reckon(trait, control);
    return traitModel(evaluation, report, data);
  }

  /** How standing plants come through winters, by cold, origin and genet. */
  async winters(control: Control): Promise<WintersReport> {
    control.onProgress(null, 'reading plants and winters');
    const rows = await readPlantWinters(this.#programme.read);
    const index = new Map((await readPlantIndex(this.#programme.read)).map((genet) => [genet.id, genet]));
    const units = (await readSettings(this.#programme.read))?.units;
    control.onProgress(null, 'fitting the model');
    const survival = winterSurvival(rows, units);
    return {
      ...survival,
      genets: survival.genets.map((genet) => {
        const { code = genet.id, name = null, alive = 0 } = index.get(genet.id) ?? {};
        return { ...genet, code, name, alive };
      }),
    };
  }

  /** As reckoned, where there are estimates, and for these genets. */
  async #fitted(
    trait: string,
    genets: readonly string[],
    control: Control,
  ): Promise<Reckoned & { readonly evaluation: Evaluation }> {
    const reckoned = await this.#reckon(trait, control);
    const { data, evaluation, report } = reckoned;
    if (evaluation.fitted === null)
      throw new RecordsError(
        'input',
        report.couldNotSeparate[0] ?? 'nothing can be estimated from these notes',
      );
    for (const id of genets) {
      if (!report.estimates.some((estimate) => estimate.id === id)) {
        throw new RecordsError(
          'absent',
          `“${data.genets.get(id)?.code ?? id}” has no estimate of ${report.trait.name}: neither it nor its kin were noted`,
          'note it, then compare',
        );
      }
    }
    return { ...reckoned, evaluation };
  }

  async #reckon(trait: string, control: Control): Promise<Reckoned> {
    // Sentences speak the programme's units, which may change without an act.
    const units = (await readSettings(this.#programme.read))?.units ?? 'metric';
    const key = `${trait} ${units} ${await latestAct(this.#programme.read)}`;
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
    const pedigree = await readPedigree(this.#programme.read);
    control.onProgress(null, 'choosing the model');
    const evaluation = evaluate(data.notes, pedigree, {
      // What is said of the scale names the unit that estimates are shown in.
      trait: { ...data.trait, unit: unitInWords(data.trait.unit, units) },
      isCancelled: control.isStopped,
      onProgress: ({ iteration }) => control.onProgress(null, `fitting the model, round ${iteration}`),
    });
    const reckoned = {
      data,
      evaluation,
      report: reportEstimates(evaluation, data.notes, { ...data, units }),
    };
    this.#keep(key, reckoned);
    return reckoned;
  }

  #keep(key: string, reckoned: Reckoned): void {
    this.#kept.set(key, reckoned);
    let genets = 0;
    for (const { report } of this.#kept.values()) genets += report.estimates.length;
    for (const [oldest, { report }] of this.#kept) {
      if (genets <= keptGenets || oldest === key) break;
      this.#kept.delete(oldest);
      genets -= report.estimates.length;
    }
  }
}
