/** Longest side of a kept picture, in pixels: florets are told apart, and a day's pictures go over a weak line. */
const longestSide = 1600;
const quality = 0.85;

export interface ScaledPicture {
  readonly bytes: ArrayBuffer;
  readonly mediaType: string;
  readonly width: number;
  readonly height: number;
}

/**
 * A picture from the camera as a JPEG of at most 1600 pixels, the right way up. The file is copied first, since
 * browsers take it back. Throws in words where the file is no picture that this browser can read.
 */
export async function scaledPicture(file: Blob): Promise<ScaledPicture> {
  const original = new Blob([await file.arrayBuffer()], { type: file.type });
  const bitmap = await createImageBitmap(original, { imageOrientation: 'from-image' }).catch(() => {
    throw new Error(
      'This file is no picture that the phone can read. Take it with the camera, or choose a JPEG.',
    );
  });
  const scale = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const scaled = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
  if (!scaled)
    throw new Error('The phone could not scale this picture: it may be short of memory. Try once more.');
  return {
    bytes: await scaled.arrayBuffer(),
    mediaType: scaled.type,
    width: canvas.width,
    height: canvas.height,
  };
}
