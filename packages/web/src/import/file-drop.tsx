import { type DragEvent, type ReactNode, useId, useState } from 'react';
import { Icon } from '../parts/icon.tsx';

/** A place to drop a file on, which is also the button to choose one by. */
export function FileDrop({
  onFile,
  busy,
}: {
  readonly onFile: (file: File) => void;
  readonly busy: string | null;
}): ReactNode {
  const id = useId();
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer.files[0];
    if (file) onFile(file);
  };
  return (
    <div className="file-drop-frame">
      <input
        id={id}
        type="file"
        className="for-readers-only"
        accept=".csv,.tsv,.txt,.xlsx,.xlsm,text/csv,text/tab-separated-values"
        disabled={busy !== null}
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file) onFile(file);
          event.target.value = '';
        }}
      />
      <label
        htmlFor={id}
        className={over ? 'file-drop file-drop-over' : 'file-drop'}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <Icon name="import" size={36} />
        <strong className="title">Choose a file, or drop it here</strong>
        <span className="soft">
          A CSV file or an XLSX workbook, with a row of headers. The file itself is not changed.
        </span>
      </label>
    </div>
  );
}
