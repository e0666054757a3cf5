import { type ReactNode, useState } from 'react';

/** Keys for the tail of a code: figures and signs, or the phone's own keyboard for letters. */
export function TailKeys({
  typed,
  setTyped,
}: {
  readonly typed: string;
  readonly setTyped: (typed: string) => void;
}): ReactNode {
  const [letters, setLetters] = useState(false);
  return (
    <>
      <input
        className="walk-tail"
        aria-label="The end of the code"
        placeholder="end of the code, such as 3/1"
        inputMode={letters ? 'text' : 'none'}
        autoCapitalize="characters"
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      <div className="walk-keys walk-tail-keys">
        {['7', '8', '9', '/', '4', '5', '6', '-', '1', '2', '3'].map((key) => (
          <button key={key} type="button" className="walk-key" onClick={() => setTyped(typed + key)}>
            {key}
          </button>
        ))}
        <button
          type="button"
          className="walk-key"
          aria-label="Rub out the last figure"
          disabled={typed === ''}
          onClick={() => setTyped(typed.slice(0, -1))}
        >
          ⌫
        </button>
        <button type="button" className="walk-key" onClick={() => setTyped(`${typed}0`)}>
          0
        </button>
        <button
          type="button"
          className="walk-key walk-letters"
          aria-pressed={letters}
          onClick={() => {
            setLetters(!letters);
            document.querySelector<HTMLInputElement>('.walk-tail')?.focus();
          }}
        >
          Letters
        </button>
      </div>
    </>
  );
}
