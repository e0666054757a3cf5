import { type Programme, seePhone } from '@keelrow/records';

/** A phone that asks many times within this is noted once, in milliseconds. */
const between = 60_000;

/** Notes when phones were last seen, behind the answers: none waits for it. */
export class Sightings {
  readonly #programme: Programme;
  readonly #noted = new Map<string, number>();
  #underWay: Promise<void> = Promise.resolve();

  constructor(programme: Programme) {
    this.#programme = programme;
  }

  see(device: string, now: Date): void {
    if (now.getTime() - (this.#noted.get(device) ?? -Infinity) < between) return;
    this.#noted.set(device, now.getTime());
    this.#underWay = this.#underWay
      .then(() => seePhone(this.#programme, device, now))
      // A sighting that cannot be noted is noted with the next call.
      .catch(() => void this.#noted.delete(device));
  }

  /** Waits for what is being noted, so that the programme can be closed. */
  async close(): Promise<void> {
    await this.#underWay;
  }
}
