/** A file that the service worker keeps; revision null where its name changes with its content. */
export interface ShellFile {
  readonly url: string;
  readonly revision: string | null;
}
