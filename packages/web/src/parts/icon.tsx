import type { ReactNode } from 'react';

/** Own line drawings on a 24-unit square; they inherit the colour of the text beside which they stand. */
const drawings = {
  plants: (
    <>
      <path d="M12 21v-9" />
      <path d="M12 13c0-4.500-3-7-8-7 0 5 3 7.500 8 7.500" />
      <path d="M12 10.500c0-4 2.700-6.500 7.500-6.500 0 4.800-2.700 7-7.500 7" />
      <path d="M7 21h10" />
    </>
  ),
  notes: (
    <>
      <path d="M6 3.500h9l4 4V20.500H6z" />
      <path d="M9 11h7M9 14.500h7M9 18h4" />
      <path d="M15 3.500v4h4" />
    </>
  ),
  beds: (
    <>
      <path d="M3.500 5h8v14h-8zM14.500 5h6v6h-6zM14.500 14h6v5h-6z" />
      <path d="M6 8.500v0M9 8.500v0M6 12v0M9 12v0M6 15.500v0M9 15.500v0" strokeWidth="2.400" />
    </>
  ),
  compare: (
    <>
      <path d="M8 6h12M4 12h12M7 18h9" />
      <g fill="currentColor">
        <circle cx="15" cy="6" r="2.300" />
        <circle cx="9.500" cy="12" r="2.300" />
        <circle cx="11" cy="18" r="2.300" />
      </g>
    </>
  ),
  briefs: (
    <>
      <path d="M5 3.500h14v17H5z" />
      <path d="M8 8.500l1.500 1.500 2.500-3M8 15.500l1.500 1.500 2.500-3M14.500 9h2M14.500 16h2" />
    </>
  ),
  import: (
    <>
      <path d="M12 3.500V14M8 10.500l4 4 4-4" />
      <path d="M4 15v5h16v-5" />
    </>
  ),
  programme: (
    <>
      <path d="M5 4.500c3-1 5-.5 7 1 2-1.500 4-2 7-1v14c-3-1-5-.5-7 1-2-1.500-4-2-7-1z" />
      <path d="M12 5.500v14" />
    </>
  ),
  walk: (
    <>
      <path d="M4 20.500c0-5 16-3 16-8s-13-2.500-13-6.500" />
      <path d="M7 3.500v3M4.500 18v5" strokeWidth="2.400" />
      <circle cx="18" cy="4.500" r="1.500" />
    </>
  ),
  camera: (
    <>
      <path d="M3.500 7.500h4l1.500-2.500h6l1.500 2.500h4v12h-17z" />
      <circle cx="12" cy="13" r="3.500" />
    </>
  ),
  speak: (
    <>
      <path d="M9 6.500a3 3 0 016 0v5a3 3 0 01-6 0z" />
      <path d="M5.500 11.500a6.500 6.500 0 0013 0M12 18v3M9 21h6" />
    </>
  ),
  search: (
    <>
      <circle cx="10.500" cy="10.500" r="6" />
      <path d="M15 15l5.500 5.500" />
    </>
  ),
  plus: <path d="M12 5v14M5 12h14" />,
  scan: (
    <>
      <path d="M4 8.500V4h4.500M15.500 4H20v4.500M20 15.500V20h-4.500M8.500 20H4v-4.500" />
      <path d="M8 8h3v3H8zM13 8h3v3h-3zM8 13h3v3H8zM13.500 13.500v2.500M16 13v3" />
    </>
  ),
  close: <path d="M6 6l12 12M18 6L6 18" />,
  undo: <path d="M9 5L4.500 9.500 9 14M5 9.500h9a5 5 0 010 10h-4" />,
  sun: (
    <>
      <circle cx="12" cy="12" r="4" />
      <path d="M12 3v2.500M12 18.500V21M3 12h2.500M18.500 12H21M5.600 5.600l1.800 1.800M16.600 16.600l1.800 1.800M18.400 5.600l-1.800 1.800M7.400 16.600l-1.800 1.800" />
    </>
  ),
  moon: <path d="M19.500 14.500A8 8 0 019.500 4.500a8 8 0 1010 10z" />,
  halves: (
    <>
      <circle cx="12" cy="12" r="8" />
      <path d="M12 4a8 8 0 010 16z" fill="currentColor" />
    </>
  ),
  heed: (
    <>
      <path d="M12 4l9 15.500H3z" />
      <path d="M12 10v4.500M12 17v.2" />
    </>
  ),
  up: <path d="M6 14.500l6-6 6 6" />,
  down: <path d="M6 9.500l6 6 6-6" />,
  right: <path d="M9.500 6l6 6-6 6" />,
  left: <path d="M14.500 6l-6 6 6 6" />,
  done: <path d="M5 12.500l4.500 4.500L19 7.500" />,
  file: (
    <>
      <path d="M6 3.500h8l4 4v13H6z" />
      <path d="M14 3.500v4h4" />
    </>
  ),
  tree: (
    <>
      <path d="M9 4.500h6v4H9zM3.500 15.500h6v4h-6zM14.500 15.500h6v4h-6z" />
      <path d="M12 8.500v3.500M6.500 15.500V12h11v3.500" />
    </>
  ),
} as const satisfies Record<string, ReactNode>;

export type IconName = keyof typeof drawings;

export function Icon({ name, size = 20 }: { readonly name: IconName; readonly size?: number }): ReactNode {
  return (
    <svg
      className="icon"
      viewBox="0 0 24 24"
      width={size}
      height={size}
      fill="none"
      stroke="currentColor"
      strokeWidth="1.700"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      {drawings[name]}
    </svg>
  );
}
