import { useEffect, useState } from 'react';

/** Whole seconds until a moment (ISO 8601), told anew each second; 0 once it has passed. */
export function useSecondsUntil(moment: string): number {
  const [left, setLeft] = useState(() => secondsUntil(moment));
  useEffect(() => {
    const tick = (): void => setLeft(secondsUntil(moment));
    tick();
    const timer = setInterval(tick, 1000);
    return () => clearInterval(timer);
  }, [moment]);
  return left;
}

const secondsUntil = (moment: string): number =>
  Math.max(0, Math.ceil((Date.parse(moment) - Date.now()) / 1000));

/** `9 min 05 s` */
export const minutesAndSeconds = (seconds: number): string =>
  `${Math.floor(seconds / 60)} min ${String(seconds % 60).padStart(2, '0')} s`;
