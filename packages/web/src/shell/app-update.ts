import { useSyncExternalStore } from 'react';
import { isTyping, onTyping } from './typing.ts';

let registration: ServiceWorkerRegistration | undefined;
let ready = false;
let asked = false;
const listeners = new Set<() => void>();

function setReady(now: boolean): void {
  ready = now;
  for (const listener of listeners) listener();
}

/** A new version has been fetched and waits; the first one ever is no update. */
function look(): void {
  setReady(Boolean(registration?.waiting && navigator.serviceWorker.controller));
}

/** Apps on the home screen of iOS do not look for a new version by themselves. */
function lookForNew(): void {
  if (document.visibilityState === 'visible') void registration?.update().catch(() => undefined);
}

/** Keeps the app's files on the device, and looks for newer ones. */
export async function startUpdates(): Promise<void> {
  if (!('serviceWorker' in navigator) || import.meta.env.DEV) return;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (asked) location.reload();
    else look();
  });
  // A window that was open over an update may miss a file of its own version; the new one has it all.
  addEventListener('vite:preloadError', () => setReady(true));
  addEventListener('focus', lookForNew);
  document.addEventListener('visibilitychange', lookForNew);
  try {
    registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
  } catch {
    // Without a trusted connection there is none; the page about this device says so.
    return;
  }
  look();
  registration.addEventListener('updatefound', () => {
    registration?.installing?.addEventListener('statechange', look);
  });
  lookForNew();
}

/** Changes to the new version. What waits lies on the disk and is read by the new version. */
export function takeNewVersion(): void {
  asked = true;
  if (registration?.waiting) registration.waiting.postMessage('take over');
  else location.reload();
}

/** Whether a new version can be offered now: it waits, and nothing is being typed. */
export const useUpdateReady = (): boolean =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      const stop = onTyping(listener);
      return () => {
        listeners.delete(listener);
        stop();
      };
    },
    () => ready && !isTyping(),
  );
