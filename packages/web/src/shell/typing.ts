import { useEffect } from 'react';

let typing = 0;
const listeners = new Set<() => void>();
const changed = (): void => {
  for (const listener of listeners) listener();
};

/** A screen says that something is typed or chosen that is not yet kept: the app is not reloaded meanwhile. */
export function useTyping(active: boolean): void {
  useEffect(() => {
    if (!active) return;
    typing += 1;
    changed();
    return () => {
      typing -= 1;
      changed();
    };
  }, [active]);
}

/** Whether anything is being typed, by what screens say or by a box in use that holds text. */
export function isTyping(): boolean {
  if (typing > 0) return true;
  const box = document.activeElement;
  if (box instanceof HTMLInputElement || box instanceof HTMLTextAreaElement) return box.value !== '';
  return box instanceof HTMLElement && box.isContentEditable;
}

/** Calls back whenever the answer of isTyping may be another. */
export function onTyping(listener: () => void): () => void {
  listeners.add(listener);
  for (const name of ['focusin', 'focusout', 'input']) document.addEventListener(name, listener);
  return () => {
    listeners.delete(listener);
    for (const name of ['focusin', 'focusout', 'input']) document.removeEventListener(name, listener);
  };
}
