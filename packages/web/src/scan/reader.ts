import type { Effort } from './find-codes.ts';
import type { Look, Seen } from './scan-worker.ts';

/** What a browser that reads codes by itself offers; TypeScript's libraries do not know it. */
interface OwnDetector {
  detect(picture: ImageBitmapSource): Promise<{ readonly rawValue: string }[]>;
}
declare const BarcodeDetector: {
  new (wanted: { formats: readonly string[] }): OwnDetector;
  getSupportedFormats(): Promise<readonly string[]>;
};

type Source = HTMLVideoElement | ImageBitmap;

/** Reads QR codes: by the browser itself where it can, else by our own reader in a worker. */
export interface Reader {
  read(source: Source, effort: Effort): Promise<readonly string[]>;
  close(): void;
}

export async function openReader(): Promise<Reader> {
  const own = await ownDetector();
  let worker: WorkerReader | null = null;
  return {
    async read(source, effort) {
      const seen = own ? await own.detect(source).catch(() => []) : [];
      const texts = seen.map(({ rawValue }) => rawValue).filter(Boolean);
      if (texts.length > 0) return [...new Set(texts)];
      // What the browser does not make out in a photo, the other reader may.
      if (own && effort === 'frame') return [];
      if (!worker || worker.broken) worker = new WorkerReader();
      return worker.read(source, effort);
    },
    close: () => worker?.close(),
  };
}

async function ownDetector(): Promise<OwnDetector | null> {
  if (typeof BarcodeDetector === 'undefined') return null;
  const formats = await BarcodeDetector.getSupportedFormats().catch((): string[] => []);
  return formats.includes('qr_code') ? new BarcodeDetector({ formats: ['qr_code'] }) : null;
}

/** Longest side (px) at which a picture is looked at: small enough to be quick, large enough for a label at arm's length. */
const longest = { frame: 1280, photo: 2400 } as const satisfies Record<Effort, number>;

interface Answer {
  resolve(texts: readonly string[]): void;
  reject(error: Error): void;
}

/** The worker's script could not be had: the app was never opened here with a connection until all of it was kept. */
export class ReaderMissing extends Error {}

class WorkerReader {
  private readonly worker = new Worker(new URL('./scan-worker.ts', import.meta.url), { type: 'module' });
  private readonly canvas = document.createElement('canvas');
  private readonly waiting = new Map<number, Answer>();
  private count = 0;
  broken = false;

  constructor() {
    this.worker.onmessage = ({ data: { number, texts } }: MessageEvent<Seen>) => {
      this.waiting.get(number)?.resolve(texts);
      this.waiting.delete(number);
    };
    this.worker.onerror = () => {
      this.broken = true;
      for (const { reject } of this.waiting.values()) reject(new ReaderMissing());
      this.waiting.clear();
    };
  }

  read(source: Source, effort: Effort): Promise<readonly string[]> {
    const [width, height] =
      source instanceof HTMLVideoElement
        ? [source.videoWidth, source.videoHeight]
        : [source.width, source.height];
    if (width === 0 || height === 0) return Promise.resolve([]);
    const scale = Math.min(1, longest[effort] / Math.max(width, height));
    this.canvas.width = Math.round(width * scale);
    this.canvas.height = Math.round(height * scale);
    const context = this.canvas.getContext('2d', { willReadFrequently: true });
    if (!context) return Promise.resolve([]);
    context.drawImage(source, 0, 0, this.canvas.width, this.canvas.height);
    const { data } = context.getImageData(0, 0, this.canvas.width, this.canvas.height);
    const number = ++this.count;
    const picture = { width: this.canvas.width, height: this.canvas.height, data };
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject });
      this.worker.postMessage({ number, picture, effort } satisfies Look, [data.buffer]);
    });
  }

  close(): void {
    this.worker.terminate();
  }
}
