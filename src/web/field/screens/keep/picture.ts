// A picture file made smaller: its longer edge as wanted, written anew as JPEG, so that nothing that the camera wrote
// into the file (place, time, owner) goes along.
import { portableSha256, toHex } from '../../../../log/entry/index.ts';
import type { Picture } from '../../engine/port.ts';

/** JPEG quality; common practice, no source: bark and decay stay readable at about a third of the size of 0.95. */
const quality = 0.85;

/**
 * @param edge longer edge of the result in pixels; a smaller picture stays as large as it is
 * @throws when the browser cannot read the file as a picture
 */
export async function shrink(file: Blob, edge: number): Promise<Picture> {
  const original = toHex(portableSha256(new Uint8Array(await file.arrayBuffer())));
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, edge / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  const canvas = document.createElement('canvas');
  try {
    canvas.width = width;
    canvas.height = height;
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, width, height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
    if (blob === null) throw new Error('The browser made no picture.');
    return {
      bytes: new Uint8Array(await blob.arrayBuffer()),
      mediaType: 'image/jpeg',
      width,
      height,
      original,
    };
  } finally {
    // Phones have little memory for canvases and free it late.
    bitmap.close();
    canvas.width = 0;
    canvas.height = 0;
  }
}
