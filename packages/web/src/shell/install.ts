import { useSyncExternalStore } from 'react';

/** What Chromium hands over when the app can be installed; other browsers have only their menus. */
interface InstallOffer extends Event {
  prompt(): Promise<unknown>;
}

let offer: InstallOffer | null = null;
const listeners = new Set<() => void>();
function set(next: InstallOffer | null): void {
  offer = next;
  for (const listener of listeners) listener();
}

/** Keeps the browser's offer to install until the person asks for it. */
export function startInstallOffer(): void {
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    set(event as InstallOffer);
  });
  addEventListener('appinstalled', () => set(null));
}

/** Opens the browser's own question; null where it has none. */
export const useInstallOffer = (): (() => void) | null => {
  const now = useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => offer,
  );
  return now && (() => void now.prompt().then(() => set(null)));
};

/** How this device puts a page on its home screen; null where it already runs from there. */
export type WayToInstall = 'ios' | 'android' | 'desk' | null;

export function wayToInstall(): WayToInstall {
  const onHomeScreen =
    matchMedia('(display-mode: standalone)').matches ||
    (navigator as { standalone?: boolean }).standalone === true;
  if (onHomeScreen) return null;
  const { userAgent, maxTouchPoints } = navigator;
  // iPads call themselves Macs, but Macs have no touch screen.
  if (/iPhone|iPad|iPod/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1)) return 'ios';
  return /Android/.test(userAgent) ? 'android' : 'desk';
}

/** What this device is called in the office's list of phones: `Android, Chrome`. */
export function deviceName(userAgent: string = navigator.userAgent): string {
  const system =
    /(iPhone|iPad|Android|Windows|Macintosh|Linux)/.exec(userAgent)?.[1]?.replace('Macintosh', 'Mac') ??
    'Device';
  const browser = /(Firefox|FxiOS|Edg|SamsungBrowser|CriOS|Chrome|Safari)/.exec(userAgent)?.[1] ?? '';
  const names: Record<string, string> = {
    FxiOS: 'Firefox',
    Edg: 'Edge',
    CriOS: 'Chrome',
    SamsungBrowser: 'Samsung Internet',
  };
  return [system, names[browser] ?? browser].filter(Boolean).join(', ');
}
