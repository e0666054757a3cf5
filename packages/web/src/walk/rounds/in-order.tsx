import type { ReactNode } from 'react';

interface Choice {
  readonly id: string;
  readonly name: string;
  /** Said beside the name: a count, a sort. */
  readonly beside: string;
}

/** Large keys, of which several are chosen; each shows its place in the order of choosing. */
export function InOrder({
  title,
  hint,
  choices,
  chosen,
  onChoose,
}: {
  readonly title: string;
  readonly hint: string;
  readonly choices: readonly Choice[];
  readonly chosen: readonly string[];
  readonly onChoose: (chosen: readonly string[]) => void;
}): ReactNode {
  return (
    <fieldset className="round-choices">
      <legend>
        {title} <span className="soft">{hint}</span>
      </legend>
      <div>
        {choices.map(({ id, name, beside }) => {
          const at = chosen.indexOf(id);
          return (
            <button
              key={id}
              type="button"
              aria-pressed={at >= 0}
              onClick={() => onChoose(at >= 0 ? chosen.filter((one) => one !== id) : [...chosen, id])}
            >
              {at >= 0 && <span className="round-place">{at + 1}</span>}
              {name} <span className="soft">{beside}</span>
            </button>
          );
        })}
      </div>
    </fieldset>
  );
}
