import { useState } from 'react';

/** tens: two touches; keys: figure by figure; tally: one touch for each thing counted. */
export type Pad = 'tens' | 'keys' | 'tally';

const kept = 'keelrow-pads';

function chosenPads(): Record<string, unknown> {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(kept) ?? '{}');
    return read && typeof read === 'object' ? { ...read } : {};
  } catch {
    return {};
  }
}

/** The choice for one trait, remembered on this phone. */
export function usePadChoice<Choice extends string>(
  key: string,
  choices: readonly Choice[],
): readonly [Choice, (choice: Choice) => void] {
  const [chosen, setChosen] = useState<Choice>(
    () => choices.find((one) => one === chosenPads()[key]) ?? choices[0]!,
  );
  return [
    chosen,
    (choice) => {
      setChosen(choice);
      localStorage.setItem(kept, JSON.stringify({ ...chosenPads(), [key]: choice }));
    },
  ];
}
