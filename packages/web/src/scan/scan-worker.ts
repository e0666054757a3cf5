import { type Effort, findCodes, type Pixels } from './find-codes.ts';

export interface Look {
  readonly number: number;
  readonly picture: Pixels;
  readonly effort: Effort;
}
export interface Seen {
  readonly number: number;
  readonly texts: readonly string[];
}

/** Reads pictures apart from the screen, which stays quick. */
self.onmessage = ({ data: { number, picture, effort } }: MessageEvent<Look>): void => {
  self.postMessage({ number, texts: findCodes(picture, effort) } satisfies Seen);
};
