import type { ReactNode } from 'react';
import './wordmark.css';

/** A pea flower seen from the front, banner above and keel below, and the name. */
export function Wordmark({ large = false }: { readonly large?: boolean }): ReactNode {
  return (
    <span className={large ? 'wordmark wordmark-large' : 'wordmark'}>
      <svg viewBox="3 3 26 26" aria-hidden="true">
        <path
          className="banner"
          d="M16 5C8.500 5 4.600 9.800 4.600 14.600c0 4 3 6.600 6.400 6.600 2.600 0 4.200-1.300 5-3 .8 1.700 2.400 3 5 3 3.400 0 6.400-2.600 6.400-6.600C27.400 9.800 23.500 5 16 5z"
        />
        <path
          className="keel"
          d="M10.500 18.500c0 5 2.500 8.500 5.500 8.500s5.500-3.500 5.500-8.500c-1.700 1.400-3.600 2.100-5.500 2.100s-3.800-.7-5.500-2.100z"
        />
        <path className="vein" d="M16 7.500v9" />
      </svg>
      <span className="title">Keelrow</span>
    </span>
  );
}
