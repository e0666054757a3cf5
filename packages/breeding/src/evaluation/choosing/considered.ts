/** A source of difference that was thought of. */
export interface ConsideredTerm {
  readonly term: string;
  readonly words: string;
  readonly entered: boolean;
  readonly why: string;
}

/** A source of difference that was taken into account, as a sentence. */
export const takenInWords = (took: string): string => `Taken into account: ${took}.`;
