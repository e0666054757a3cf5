import type { ReactNode } from 'react';
import { Icon } from '../../parts/icon.tsx';

/** Opens the phone's own camera; hands over the file that it took. */
export function CameraButton({
  words,
  onPicture,
  className,
}: {
  readonly words: string;
  readonly onPicture: (file: File) => void;
  readonly className: string;
}): ReactNode {
  return (
    <label className={className}>
      <Icon name="camera" size={28} />
      {words}
      <input
        type="file"
        accept="image/*"
        capture="environment"
        className="for-readers-only"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) onPicture(file);
        }}
      />
    </label>
  );
}
