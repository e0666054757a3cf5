import { type RefObject, useEffect, useState } from 'react';

/** The width in pixels that an element has, kept up to date. */
export function useWidth(element: RefObject<HTMLElement | null>, first: number): number {
  const [width, setWidth] = useState(first);
  useEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.floor(entry.contentRect.width));
    });
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
