import { type LabelReading, readLabelCode } from '@keelrow/breeding/labels';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { Button } from '../parts/button.tsx';

const ScanDialog = lazy(() => import('./scan-dialog.tsx'));

interface ScanButtonProps {
  /** What the label's QR code holds, and what codes that can mean, best first. */
  readonly onCode: (text: string, readings: readonly LabelReading[]) => void;
  readonly children?: ReactNode;
  readonly className?: string;
}

/** Reads a label by the camera, or from a photo of it; works without a connection. */
export function ScanButton({ onCode, children = 'Scan a label', className }: ScanButtonProps): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button icon="scan" className={className} onClick={() => setOpen(true)}>
        {children}
      </Button>
      {open && (
        <Suspense fallback={null}>
          <ScanDialog
            onClose={() => setOpen(false)}
            onText={(text) => {
              setOpen(false);
              onCode(text, readLabelCode(text));
            }}
          />
        </Suspense>
      )}
    </>
  );
}
