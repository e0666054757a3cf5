import { type ChildProcess, spawn } from 'node:child_process';
import { command } from './running-keelrow.ts';

/** The built server over a programme that is there already, killed and started as a test likes. */
export class KillableKeelrow {
  readonly #where: string;
  readonly #args: readonly string[];
  #child: ChildProcess | undefined;
  #port = 0;
  /** How often it was killed. */
  kills = 0;

  constructor(where: string, args: readonly string[] = ['--open']) {
    this.#where = where;
    this.#args = args;
  }

  get address(): string {
    return `http://127.0.0.1:${this.#port}`;
  }

  /** Resolves with the link that it prints, when it answers; after a kill at the port where it was before. */
  async start(): Promise<string> {
    const child = spawn(
      process.execPath,
      [command, 'serve', ...this.#args, '--data', this.#where, '--port', String(this.#port)],
      { stdio: ['ignore', 'pipe', 'pipe'] },
    );
    this.#child = child;
    let said = '';
    const link = await new Promise<string>((resolve, reject) => {
      const hear = (bytes: Buffer): void => {
        said += bytes.toString();
        const found = /Open (http\S+)/.exec(said);
        if (found) resolve(found[1]!);
      };
      child.stdout.on('data', hear);
      child.stderr.on('data', hear);
      child.once('exit', (code) => reject(new Error(`keelrow ended with ${code}: ${said}`)));
    });
    this.#port = Number(new URL(link).port);
    return link;
  }

  /** Ends it in the midst of whatever it does. */
  async kill(): Promise<void> {
    const child = this.#child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
    child.kill('SIGKILL');
    await ended;
    this.kills += 1;
  }
}
