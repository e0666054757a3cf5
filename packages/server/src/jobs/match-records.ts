import { type BriefMatch, matchFromNotes } from '@keelrow/breeding/brief';
import { latestAct, type Programme, readBriefData, readSettings } from '@keelrow/records';
import type { Control } from './tasks.ts';

/** Matches kept for those who come back to a brief; the oldest goes first. */
const keptMatches = 8;

/** Holds every living genet of a programme against its briefs, each match kept until anything in the programme changes. */
export class Matching {
  readonly #programme: Programme;
  readonly #kept = new Map<string, BriefMatch>();

  constructor(programme: Programme) {
    this.#programme = programme;
  }

  async match(brief: string, control: Control): Promise<BriefMatch> {
    // The words speak the programme's units, which may change without an act.
    const units = (await readSettings(this.#programme.read))?.units;
    const key = `${brief} ${units} ${await latestAct(this.#programme.read)}`;
    const kept = this.#kept.get(key);
    if (kept) return kept;
    control.onProgress(null, 'reading notes');
    const data = await readBriefData(this.#programme.read, brief);
    const match = matchFromNotes(data, { isCancelled: control.isStopped, onProgress: control.onProgress });
    this.#kept.set(key, match);
    if (this.#kept.size > keptMatches) this.#kept.delete(this.#kept.keys().next().value!);
    return match;
  }
}
