import { type ReactNode, useEffect, useRef } from 'react';

/** A value that is far from what was noted before is asked about at once; it is never blocked. Mending lies under the thumb. */
export function Question({
  words,
  value,
  onKeep,
  onMend,
}: {
  readonly words: string;
  readonly value: string;
  readonly onKeep: () => void;
  readonly onMend: () => void;
}): ReactNode {
  const mend = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    mend.current?.focus();
  }, []);
  return (
    <div
      className="walk-question settling"
      role="alertdialog"
      aria-label="Is this right?"
      aria-describedby="walk-asked"
    >
      <p id="walk-asked">{words}</p>
      <button type="button" className="walk-key" onClick={onKeep}>
        Keep {value}
      </button>
      <button ref={mend} type="button" className="walk-keep" onClick={onMend}>
        Mend
      </button>
    </div>
  );
}
