import type { LabelPage, PlacedLabel, QrModules, Shape } from '@keelrow/breeding/labels';
import type { ReactNode } from 'react';
import '@fontsource/atkinson-hyperlegible-next/latin-500.css';
import '@fontsource/atkinson-hyperlegible-next/latin-800.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-500.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-800.css';

/** A page as it will be printed: the same shapes, in millimetres, that the PDF holds. */
export function PageDrawing({ page, name }: { readonly page: LabelPage; readonly name: string }): ReactNode {
  return (
    <svg
      className="label-page"
      viewBox={`0 0 ${page.width} ${page.height}`}
      width={`${page.width}mm`}
      height={`${page.height}mm`}
      role="img"
      aria-label={name}
    >
      {page.labels.map((label, at) => (
        // Two labels of a plant differ in their place alone.
        // biome-ignore lint/suspicious/noArrayIndexKey: the place on the page is what a label is known by
        <LabelDrawing key={at} label={label} />
      ))}
    </svg>
  );
}

function LabelDrawing({ label }: { readonly label: PlacedLabel }): ReactNode {
  const { x, y, width, height, turned } = label;
  return (
    <>
      <rect className="label-edge" x={x} y={y} width={width} height={height} />
      <g transform={turned ? `translate(${x} ${y + height}) rotate(-90)` : `translate(${x} ${y})`}>
        {label.shapes.map((shape) => (
          <ShapeDrawing key={`${shape.kind} ${shape.x} ${shape.y}`} shape={shape} />
        ))}
      </g>
    </>
  );
}

function ShapeDrawing({ shape }: { readonly shape: Shape }): ReactNode {
  switch (shape.kind) {
    case 'text':
      return (
        <text
          x={shape.x}
          y={shape.y}
          fontSize={shape.size}
          className={`label-${shape.weight}`}
          textLength={shape.width || undefined}
          lengthAdjust="spacingAndGlyphs"
        >
          {shape.text}
        </text>
      );
    case 'box':
      return (
        <rect
          className="label-frame"
          x={shape.x}
          y={shape.y}
          width={shape.width}
          height={shape.height}
          strokeWidth={shape.line}
        />
      );
    case 'qr':
      return (
        <path
          transform={`translate(${shape.x} ${shape.y}) scale(${shape.size / shape.modules.length})`}
          d={darkPath(shape.modules)}
        />
      );
  }
}

const darkPath = (modules: QrModules): string =>
  modules
    .flatMap((row, down) => row.map((dark, across) => (dark ? `M${across} ${down}h1v1h-1z` : '')))
    .join('');
