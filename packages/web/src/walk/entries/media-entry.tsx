import type { ReactNode } from 'react';
import { CameraButton } from '../media/camera-button.tsx';
import { MemoButton } from '../media/memo-button.tsx';
import type { MemoTaken } from '../media/record-memo.ts';

export function PicturedEntry({
  onPicture,
  dayChoice,
}: {
  readonly onPicture: (file: File) => void;
  readonly dayChoice: ReactNode;
}): ReactNode {
  return (
    <div className="walk-media">
      <div className="walk-tabs">{dayChoice}</div>
      <p>Shade or overcast sky, the grey card in the picture beside the flower.</p>
      <CameraButton words="Take the picture" className="walk-keep walk-large" onPicture={onPicture} />
    </div>
  );
}

export function SpokenEntry({
  onMemo,
  dayChoice,
}: {
  readonly onMemo: (memo: MemoTaken) => void;
  readonly dayChoice: ReactNode;
}): ReactNode {
  return (
    <div className="walk-media">
      <div className="walk-tabs">{dayChoice}</div>
      <MemoButton className="walk-keep walk-large" onMemo={onMemo} />
    </div>
  );
}
