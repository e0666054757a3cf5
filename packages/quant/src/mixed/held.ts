import type { Design } from './design.ts';
import { ModelError } from './model-error.ts';

/**
 * The held variances of a model, checked.
 *
 * @throws ModelError for a name that is no random term, a negative value, or a residual of zero
 */
export function readHeld(
  design: Design,
  held: Readonly<Record<string, number>> | undefined,
): ReadonlyMap<string, number> {
  const names = [...design.terms.map((term) => term.name), 'residual'];
  const read = new Map(Object.entries(held ?? {}));
  for (const [name, value] of read) {
    if (!names.includes(name)) {
      throw new ModelError(
        `"${name}" has no variance to hold`,
        `The variances of this model are ${names.map((known) => `"${known}"`).join(', ')}`,
      );
    }
    if (!(value >= 0 && Number.isFinite(value))) {
      throw new ModelError(
        `the variance of "${name}" cannot be held at ${value}`,
        'Give a number of 0 or more',
      );
    }
    if (name === 'residual' && value === 0) {
      throw new ModelError('the residual variance cannot be held at 0', 'Give a number above 0');
    }
  }
  return read;
}
