import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { cameraTrouble, openCamera } from './camera.ts';
import { openReader, type Reader, ReaderMissing } from './reader.ts';
import './scan.css';

interface ScanDialogProps {
  readonly onText: (text: string) => void;
  readonly onClose: () => void;
}

/** Between two looks at the camera's picture (ms). */
const pause = 120;

/** The camera's picture, which is read as it moves, or a photo; closes with the first code that is read. */
export default function ScanDialog({ onText, onClose }: ScanDialogProps): ReactNode {
  const video = useRef<HTMLVideoElement>(null);
  const reader = useReader();
  const [trouble, setTrouble] = useState<string | null>(null);
  const [live, setLive] = useState(false);
  const [photo, setPhoto] = useState<'none' | 'reading' | 'nothing' | 'no reader'>('none');
  const [choice, setChoice] = useState<readonly string[]>([]);
  const photoId = useId();
  const done = useRef(onText);
  done.current = onText;

  useEffect(() => {
    let ended = false;
    let stream: MediaStream | null = null;
    const watch = async (shown: HTMLVideoElement, reading: Reader): Promise<void> => {
      while (!ended) {
        const [text] = await reading.read(shown, 'frame');
        if (ended) return;
        if (text !== undefined) {
          navigator.vibrate?.(60);
          done.current(text);
          return;
        }
        await new Promise((resolve) => setTimeout(resolve, pause));
      }
    };
    const begin = async (): Promise<void> => {
      try {
        stream = await openCamera();
        const shown = video.current;
        if (ended || !shown) {
          stop(stream);
          return;
        }
        shown.srcObject = stream;
        await shown.play();
        setLive(true);
        await watch(shown, await reader());
      } catch (error) {
        if (ended) return;
        if (error instanceof ReaderMissing) setPhoto('no reader');
        else setTrouble(cameraTrouble(error));
      }
    };
    void begin();
    return () => {
      ended = true;
      if (stream) stop(stream);
    };
  }, [reader]);

  const readPhoto = async (file: File): Promise<void> => {
    setPhoto('reading');
    setChoice([]);
    try {
      const picture = await createImageBitmap(file);
      const texts = await (await reader()).read(picture, 'photo');
      picture.close();
      if (texts.length === 1) done.current(texts[0]!);
      else setChoice(texts);
      setPhoto(texts.length === 0 ? 'nothing' : 'none');
    } catch (error) {
      setPhoto(error instanceof ReaderMissing ? 'no reader' : 'nothing');
    }
  };

  return (
    <Dialog title="Scan a label" onClose={onClose}>
      <div className="scan-view" hidden={trouble !== null}>
        <video ref={video} muted playsInline aria-label="Picture of the camera" />
        {live && <div className="scan-aim" aria-hidden="true" />}
      </div>
      <p role="status">
        {trouble ?? (live ? 'Hold the label’s square pattern before the camera.' : 'Opening the camera.')}
      </p>
      <label className="button button-plain scan-photo" htmlFor={photoId}>
        {photo === 'reading' ? 'Reading the photo' : 'Take or choose a photo'}
        <input
          id={photoId}
          type="file"
          accept="image/*"
          capture="environment"
          disabled={photo === 'reading'}
          onChange={({ target }) => {
            const file = target.files?.[0];
            target.value = '';
            if (file) void readPhoto(file);
          }}
        />
      </label>
      {photo === 'nothing' && (
        <p className="field-problem" role="alert">
          No code could be read in this photo. Go closer, keep the sun behind you, or type the number.
        </p>
      )}
      {photo === 'no reader' && (
        <p className="field-problem" role="alert">
          The part of the app that reads labels is not on this device yet. Open Keelrow once with a
          connection, or type the number.
        </p>
      )}
      {choice.length > 0 && (
        <>
          <p id={`${photoId}-choice`}>Several labels are in this photo. Which one?</p>
          <ul className="scan-choice" aria-labelledby={`${photoId}-choice`}>
            {choice.map((text) => (
              <li key={text}>
                <Button onClick={() => done.current(text)}>{text}</Button>
              </li>
            ))}
          </ul>
        </>
      )}
    </Dialog>
  );
}

const stop = (stream: MediaStream): void => {
  for (const track of stream.getTracks()) track.stop();
};

/** One reader for as long as the dialog is open, opened with the first picture. */
function useReader(): () => Promise<Reader> {
  const opened = useRef<Promise<Reader> | null>(null);
  useEffect(
    () => () => {
      void opened.current?.then((reader) => reader.close());
      opened.current = null;
    },
    [],
  );
  const [open] = useState(() => () => {
    opened.current ??= openReader();
    return opened.current;
  });
  return open;
}
