import { type DateOrder, dateShape } from './date-shape.ts';

/** A cell and what it would be in one order. */
export interface DateExample {
  readonly text: string;
  readonly date: string;
}

export type ExaminedDates =
  /** No cell depends on the order. */
  | { readonly order: 'any' }
  /** The one order that fits every cell. */
  | { readonly order: DateOrder }
  /** Several orders fit every cell and give different days: the person must say. */
  | {
      readonly order: 'ask';
      readonly readings: readonly { readonly order: DateOrder; readonly examples: readonly DateExample[] }[];
    }
  /** No order fits every cell; for each order the first cell that contradicts it. */
  | {
      readonly order: 'mixed';
      readonly against: readonly { readonly order: DateOrder; readonly text: string }[];
    };

const orders: readonly DateOrder[] = ['ymd', 'dmy', 'mdy'];
const examplesShown = 2;

/**
 * Looks through a whole column for the order of day, month and year. Cells that hold no date, and those that mean one day in
 * whatever order, are passed over. Where several orders fit, the choice is the person's, with examples of what each would give.
 * @param latest a date that no cell can be after (today for notes): an order that gives later ones does not fit
 */
export function examineDates(
  texts: Iterable<string>,
  { latest }: { latest?: string | undefined } = {},
): ExaminedDates {
  const against = new Map<DateOrder, string>();
  const doubtful: { text: string; dates: ReadonlyMap<DateOrder, string> }[] = [];
  let seen = 0;
  for (const text of texts) {
    const shape = dateShape(text);
    if (shape.kind !== 'by-order') continue;
    seen++;
    const fits = (order: DateOrder) => {
      const date = shape.dates.get(order);
      return date !== undefined && (latest === undefined || date <= latest);
    };
    for (const order of orders) if (!against.has(order) && !fits(order)) against.set(order, text);
    if (doubtful.length < examplesShown && new Set(shape.dates.values()).size > 1)
      doubtful.push({ text, dates: shape.dates });
  }
  if (seen === 0) return { order: 'any' };
  const fitting = orders.filter((order) => !against.has(order));
  if (fitting.length === 0)
    return { order: 'mixed', against: [...against].map(([order, text]) => ({ order, text })) };
  if (fitting.length === 1) return { order: fitting[0]! };
  if (doubtful.length === 0) return { order: 'any' };
  return {
    order: 'ask',
    readings: fitting.map((order) => ({
      order,
      examples: doubtful.map(({ text, dates }) => ({ text, date: dates.get(order)! })),
    })),
  };
}
