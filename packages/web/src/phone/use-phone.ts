import { liveQuery } from 'dexie';
import { useSyncExternalStore } from 'react';
import { phone } from './store.ts';

export interface PhoneState {
  /** Facts that the server has not confirmed, refused ones not among them. */
  readonly waiting: number;
  readonly refused: number;
  /** Pictures and memos, refused ones among them. */
  readonly photosWaiting: number;
  readonly handingOver: boolean;
  readonly trouble: string | null;
  readonly shutOut: boolean;
  /** When the garden was last fetched, ISO 8601; null where it never was. */
  readonly holdingsOf: string | null;
  /** Whether the browser promised to keep what is on its disk; null while nothing was asked or it cannot be. */
  readonly persisted: boolean | null;
  readonly online: boolean;
  /** The disk has been counted. */
  readonly known: boolean;
}

interface OnDisk {
  readonly waiting: number;
  readonly refused: number;
  readonly photosWaiting: number;
  readonly holdingsOf: string | null;
}

const nothing: OnDisk = { waiting: 0, refused: 0, photosWaiting: 0, holdingsOf: null };
let onDisk: OnDisk | null = null;
let diskTrouble: string | null = null;
let state: PhoneState | null = null;
const listeners = new Set<() => void>();
let stop: (() => void) | undefined;

const count = (): Promise<OnDisk> =>
  phone.db.reliably(async () => {
    const { facts, photos, held } = phone.db;
    const [waiting, refused, photosWaiting, holdings] = await Promise.all([
      facts.where('state').equals('waiting').count(),
      facts.where('state').equals('refused').count(),
      photos.count(),
      held.get('holdings'),
    ]);
    return { waiting, refused, photosWaiting, holdingsOf: holdings?.fetchedAt ?? null };
  });

function start(): () => void {
  const changed = (): void => {
    state = null;
    for (const listener of listeners) listener();
  };
  const disk = liveQuery(count).subscribe({
    next: (counted) => {
      onDisk = counted;
      diskTrouble = null;
      changed();
    },
    error: () => {
      diskTrouble =
        'This browser lets Keelrow keep nothing on its disk: notes would be lost. Leave its private mode.';
      changed();
    },
  });
  const unsubscribe = phone.subscribe(changed);
  addEventListener('online', changed);
  addEventListener('offline', changed);
  return () => {
    disk.unsubscribe();
    unsubscribe();
    removeEventListener('online', changed);
    removeEventListener('offline', changed);
  };
}

/** Follows what waits on the phone, for as long as somebody looks. */
function subscribe(listener: () => void): () => void {
  if (listeners.size === 0) stop = start();
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) stop?.();
  };
}

function read(): PhoneState {
  if (state) return state;
  const { busy, trouble, shutOut, persisted } = phone.state();
  state = {
    ...(onDisk ?? nothing),
    handingOver: busy,
    trouble: diskTrouble ?? trouble,
    shutOut,
    persisted,
    online: navigator.onLine,
    known: onDisk !== null,
  };
  return state;
}

export const usePhoneState = (): PhoneState => useSyncExternalStore(subscribe, read);
