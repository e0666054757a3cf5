import type { AnyRow, KindName } from '@keelrow/breeding/facts';
import type { Finding } from '../tables/index.ts';
import { type ImportOutcome, type ImportProblem, type ImportQuestion, makeable } from './plan.ts';
import type { Survey } from './survey.ts';

/** Problems that are told one by one; the rest are counted. */
const problemsTold = 1000;
const rowsShown = 20;
const codesTold = 200;

/** Keeps count of what an import would do and of all that stands in its way. */
export class Tally {
  /** The file being read, with its sheet where there are several. */
  file: string | undefined;
  #rows = 0;
  #changed = 0;
  #same = 0;
  #problemCount = 0;
  #lastSaid = '';
  readonly #problems: ImportProblem[] = [];
  readonly #questions: ImportQuestion[] = [];
  readonly #first: AnyRow[] = [];
  readonly #stored: Record<string, number> = {};
  readonly #missing = new Map<KindName, Set<string>>();
  readonly #findings = new Set<string>();

  looked(survey: Survey, findings: readonly Finding[]): void {
    this.#rows += survey.rows;
    this.#questions.push(...survey.questions);
    for (const problem of survey.problems) this.problem(problem);
    for (const { message } of findings) this.#findings.add(message);
  }

  problem(problem: ImportProblem): void {
    // A row that makes several notes says what is wrong with it once.
    const said = `${this.file} ${problem.row} ${problem.column} ${problem.problem}`;
    if (said === this.#lastSaid) return;
    this.#lastSaid = said;
    this.#problemCount += 1;
    if (this.#problems.length < problemsTold)
      this.#problems.push({ ...(this.file ? { file: this.file } : {}), ...problem });
  }

  count(kind: KindName, number: number): void {
    if (number > 0) this.#stored[kind] = (this.#stored[kind] ?? 0) + number;
  }

  taken(kind: KindName, row: AnyRow): void {
    this.count(kind, 1);
    if (this.#first.length < rowsShown) this.#first.push(row);
  }

  sameAsStored(): void {
    this.#same += 1;
  }

  changes(): void {
    this.#changed += 1;
  }

  miss(kind: KindName, codes: readonly string[]): void {
    const set = this.#missing.get(kind) ?? new Set();
    for (const code of codes) set.add(code);
    this.#missing.set(kind, set);
  }

  hasQuestions(): boolean {
    return this.#questions.length > 0;
  }

  isClean(): boolean {
    return this.#problemCount === 0 && this.#questions.length === 0;
  }

  outcome(): ImportOutcome {
    return {
      rows: this.#rows,
      first: this.#first,
      stored: this.#stored,
      changed: this.#changed,
      alreadyThere: this.#same,
      problems: this.#problems,
      problemCount: this.#problemCount,
      questions: this.#questions,
      missing: [...this.#missing].map(([kind, codes]) => ({
        kind,
        count: codes.size,
        codes: [...codes].slice(0, codesTold),
        canMake: makeable.includes(kind),
      })),
      findings: [...this.#findings],
    };
  }
}
