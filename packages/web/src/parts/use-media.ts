import { useSyncExternalStore } from 'react';

/** Whether a media query holds, kept up to date. */
function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (changed) => {
      const list = matchMedia(query);
      list.addEventListener('change', changed);
      return () => list.removeEventListener('change', changed);
    },
    () => matchMedia(query).matches,
  );
}

/** One thing at a time, with a thumb. */
export const usePhone = (): boolean => useMedia('(max-width: 45rem)');
