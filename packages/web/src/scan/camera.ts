/** Why there is no picture from a camera, in words, and what would help. */
export function cameraTrouble(error: unknown): string {
  if (!globalThis.isSecureContext) {
    return 'The live camera needs a safe connection (https) to the office computer. A photo of the label can be read all the same.';
  }
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError') {
    return 'The browser was told not to use the camera here. Allow it in the page’s settings, or take a photo of the label.';
  }
  if (name === 'NotReadableError') {
    return 'Another app is using the camera. Close it, or take a photo of the label.';
  }
  return 'This device offers no camera to the browser. A photo of the label can be read all the same.';
}

/** The camera on the back of a phone, else any. Throws where there is none that may be used. */
export async function openCamera(): Promise<MediaStream> {
  if (!navigator.mediaDevices?.getUserMedia) throw new DOMException('no camera', 'NotFoundError');
  return navigator.mediaDevices.getUserMedia({
    audio: false,
    video: { facingMode: 'environment', width: { ideal: 1280 }, height: { ideal: 720 } },
  });
}
