import encodeQR from 'qr';
import { type ReactNode, useMemo } from 'react';
import './qr-code.css';

/** Modules of white around the code; source: ISO/IEC 18004, section 6.3.8: four. */
const quiet = 4;

/** A QR code, black on white by day and night, since readers want it so. name: what it leads to, for those who hear it. */
export function QrCode({ text, name }: { readonly text: string; readonly name: string }): ReactNode {
  const { size, path } = useMemo(() => drawn(text), [text]);
  return (
    <svg
      className="qr-code"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={name}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}

function drawn(text: string): { size: number; path: string } {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: quiet });
  const path = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  return { size: rows.length, path };
}
