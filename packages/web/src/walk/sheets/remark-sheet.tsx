import type { ReactNode } from 'react';
import { CameraButton } from '../media/camera-button.tsx';
import { MemoButton } from '../media/memo-button.tsx';
import type { MemoTaken } from '../media/record-memo.ts';
import { Sheet } from './sheet.tsx';

/** What goes along with the note: a remark typed or spoken, a picture. */
export function RemarkSheet({
  about,
  typed,
  setTyped,
  onRemark,
  onMemo,
  onPicture,
  onClose,
}: {
  readonly about: string;
  readonly typed: string;
  readonly setTyped: (typed: string) => void;
  readonly onRemark: (remark: string) => void;
  readonly onMemo: (memo: MemoTaken) => void;
  readonly onPicture: (file: File) => void;
  readonly onClose: () => void;
}): ReactNode {
  return (
    <Sheet title={`With ${about}`} onClose={onClose}>
      <div className="walk-written">
        <textarea
          aria-label="Remark"
          rows={3}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
        <button
          type="button"
          className="walk-keep"
          disabled={typed.trim() === ''}
          onClick={() => onRemark(typed.trim())}
        >
          Keep the remark
        </button>
        <MemoButton className="walk-key walk-large" onMemo={onMemo} />
        <CameraButton words="Take a picture" className="walk-key walk-large" onPicture={onPicture} />
      </div>
    </Sheet>
  );
}
