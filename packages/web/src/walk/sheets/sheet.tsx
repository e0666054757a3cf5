import { type ReactNode, useEffect, useRef } from 'react';

/** A sheet over the walk; its ways out lie at its foot, where the thumb is. */
export function Sheet({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}): ReactNode {
  const sheet = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const shown = sheet.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={sheet}
      className="walk-sheet"
      aria-label={title}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2>{title}</h2>
      <div className="walk-sheet-body">{children}</div>
      <button type="button" className="walk-key walk-close" onClick={onClose}>
        Close
      </button>
    </dialog>
  );
}
