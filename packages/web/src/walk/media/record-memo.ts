export interface MemoTaken {
  readonly bytes: ArrayBuffer;
  readonly mediaType: string;
}

export interface Recording {
  /** Ends the recording and hands over what was said. */
  stop(): Promise<MemoTaken>;
}

/** Longer memos nobody listens to, and they go badly over a weak line. */
export const longestMemoSeconds = 180;

/** Begins to record. Throws in words where the phone does not let it: why, and what would mend it. */
export async function recordMemo(): Promise<Recording> {
  if (!globalThis.isSecureContext || !navigator.mediaDevices?.getUserMedia)
    throw new Error(
      'The microphone needs a safe connection (https). Open Keelrow by its https address, or type the remark.',
    );
  if (typeof MediaRecorder === 'undefined')
    throw new Error('This browser cannot record sound. Type the remark, or use a newer browser.');
  const sound = await navigator.mediaDevices.getUserMedia({ audio: true }).catch((error: unknown) => {
    throw new Error(whyRefused(error));
  });
  const recorder = new MediaRecorder(sound);
  const pieces: Blob[] = [];
  recorder.addEventListener('dataavailable', ({ data }) => pieces.push(data));
  recorder.start();
  const ended = new Promise<void>((resolve) => {
    recorder.addEventListener('stop', () => resolve(), { once: true });
  });
  return {
    async stop() {
      if (recorder.state !== 'inactive') recorder.stop();
      await ended;
      for (const track of sound.getTracks()) track.stop();
      const type = (recorder.mimeType || pieces[0]?.type || 'audio/webm').split(';')[0]!;
      return { bytes: await new Blob(pieces, { type }).arrayBuffer(), mediaType: type };
    },
  };
}

function whyRefused(error: unknown): string {
  switch (error instanceof DOMException ? error.name : '') {
    case 'NotAllowedError':
      return 'The microphone is not allowed for Keelrow. Allow it in the browser’s settings for this page, or type the remark.';
    case 'NotFoundError':
      return 'This device has no microphone. Type the remark.';
    case 'NotReadableError':
      return 'Another app holds the microphone. End it and try once more, or type the remark.';
    default:
      return 'The microphone did not answer. Try once more, or type the remark.';
  }
}
