import { type ReactNode, useEffect, useRef, useState } from 'react';
import { wordsOf } from '../../api/api-error.ts';
import { Icon } from '../../parts/icon.tsx';
import { longestMemoSeconds, type MemoTaken, type Recording, recordMemo } from './record-memo.ts';

/** Begins and ends a spoken memo. One that is left in the middle is kept as far as it was spoken. */
export function MemoButton({
  onMemo,
  className,
}: {
  readonly onMemo: (memo: MemoTaken) => void;
  readonly className: string;
}): ReactNode {
  const [recording, setRecording] = useState<Recording | null>(null);
  const [seconds, setSeconds] = useState(0);
  const [refused, setRefused] = useState<string | null>(null);
  const handOver = useRef(onMemo);
  handOver.current = onMemo;

  useEffect(() => {
    if (!recording) return;
    const clock = setInterval(() => setSeconds((now) => now + 1), 1000);
    const longest = setTimeout(() => setRecording(null), longestMemoSeconds * 1000);
    return () => {
      clearInterval(clock);
      clearTimeout(longest);
      void recording.stop().then((memo) => handOver.current(memo));
    };
  }, [recording]);

  const begin = async (): Promise<void> => {
    setRefused(null);
    setSeconds(0);
    try {
      setRecording(await recordMemo());
    } catch (error) {
      setRefused(wordsOf(error).problem);
    }
  };
  return (
    <>
      <button
        type="button"
        className={className}
        aria-pressed={recording !== null}
        onClick={() => (recording ? setRecording(null) : void begin())}
      >
        <Icon name="speak" size={28} />
        {recording ? `Stop and keep (${seconds} s)` : 'Speak'}
      </button>
      {refused && (
        <p className="walk-refused" role="alert">
          {refused}
        </p>
      )}
    </>
  );
}
