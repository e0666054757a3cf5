/** How text is drawn: heavy for what must be read from a weathered label, plain for the rest. */
export type Weight = 'heavy' | 'plain';

/** Width of a text set at a size of 1, in the unit of the size. */
export type Measure = (text: string, weight: Weight) => number;

/** What is drawn, in millimetres from the upper left corner, y downwards. */
export type Shape =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly weight: Weight;
      /** Left end of the base line. */
      readonly x: number;
      readonly y: number;
      /** Height of an em. */
      readonly size: number;
      readonly width: number;
    }
  /** A box drawn with a line of this thickness. */
  | {
      readonly kind: 'box';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly line: number;
    }
  /** A QR code without its quiet zone. */
  | {
      readonly kind: 'qr';
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly modules: QrModules;
    };

/** Rows of a QR code's modules, true where dark. */
export type QrModules = readonly (readonly boolean[])[];

/** Shares of an em: capitals and figures above the base line, what hangs below it. */
export const capitals = 0.68;
export const below = 0.24;
