import { type ReactNode, useEffect, useId, useRef } from 'react';
import { IconButton } from './button.tsx';
import './dialog.css';

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  readonly wide?: boolean;
}

/** A sheet laid over the page; the browser's own dialog keeps focus inside, answers Escape and gives focus back. */
export function Dialog({ title, onClose, children, wide = false }: DialogProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className={wide ? 'dialog dialog-wide' : 'dialog'}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <header className="dialog-head">
        <h2 id={id}>{title}</h2>
        <IconButton icon="close" name="Close" onClick={onClose} />
      </header>
      <div className="dialog-body">{children}</div>
    </dialog>
  );
}
