import type { KindName } from '@keelrow/breeding/facts';
import type { ImportPlan, ImportPreview, ProposalWanted, Upload } from '@keelrow/server/contract';
import { useEffect, useRef, useState } from 'react';
import { part, send, sendFile } from '../api/talk.ts';

export interface ImportState {
  readonly upload: Upload | null;
  readonly plan: ImportPlan | null;
  readonly preview: ImportPreview | null;
  /** What is being done, in words; null while nothing is. */
  readonly busy: string | null;
  readonly error: unknown;
  take(file: File): void;
  /** Reads the same file as another sheet or kind; again: parts of it are stored already. */
  readAs(wanted: ProposalWanted, again?: boolean): void;
  change(plan: ImportPlan): void;
  startOver(): void;
}

const rest = 350;

/** A file on its way in: read, proposed, changed by the user, and previewed anew after each change. */
export function useImport(): ImportState {
  const [upload, setUpload] = useState<Upload | null>(null);
  const [plan, setPlan] = useState<ImportPlan | null>(null);
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [busy, setBusy] = useState<string | null>(null);
  const [error, setError] = useState<unknown>(null);
  const turn = useRef(0);

  const during = async (words: string, act: () => Promise<Upload>, again = false): Promise<void> => {
    const mine = ++turn.current;
    setBusy(words);
    setError(null);
    try {
      const read = await act();
      if (mine !== turn.current) return;
      setUpload(read);
      setPlan(again ? { ...read.proposal, again } : read.proposal);
      setPreview(null);
    } catch (problem) {
      if (mine === turn.current) setError(problem);
    } finally {
      if (mine === turn.current) setBusy(null);
    }
  };

  const id = upload?.upload;
  useEffect(() => {
    if (!id || !plan) return;
    let current = true;
    const timer = setTimeout(() => {
      setBusy('Reading every row');
      send<ImportPreview>('POST', `imports/${part(id)}/preview`, { plan })
        .then((seen) => {
          if (!current) return;
          setPreview(seen);
          setError(null);
        })
        .catch((problem: unknown) => current && setError(problem))
        .finally(() => current && setBusy(null));
    }, rest);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [id, plan]);

  return {
    upload,
    plan,
    preview,
    busy,
    error,
    take: (file) =>
      void during(`Reading ${file.name}`, () => sendFile<Upload>('imports', { name: file.name }, file)),
    readAs: (wanted, again) =>
      void during(
        'Reading it again',
        () => send<Upload>('POST', `imports/${part(id ?? '')}/propose`, wanted),
        again,
      ),
    change: setPlan,
    startOver: () => {
      turn.current++;
      setUpload(null);
      setPlan(null);
      setPreview(null);
      setError(null);
      setBusy(null);
    },
  };
}

/** Kinds that people most often have in a spreadsheet come first. */
export const usualKinds: readonly KindName[] = [
  'notes',
  'plants',
  'genets',
  'accessions',
  'places',
  'traits',
  'crosses',
  'weather',
];
