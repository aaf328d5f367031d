// Pictures as a phone's camera writes them: a JPEG with a place in its EXIF.
import type { Page } from 'playwright-core';

/** A JPEG of that size, drawn by the browser, with noise enough not to be tiny and a GPS place in its EXIF. */
export async function cameraFile(page: Page, width: number, height: number): Promise<Buffer> {
  const base64 = await page.evaluate(
    async ([wide, high]) => {
      const canvas = new OffscreenCanvas(wide, high);
      const pen = canvas.getContext('2d');
      if (pen === null) throw new Error('no canvas');
      for (let x = 0; x < wide; x += 50)
        for (let y = 0; y < high; y += 50) {
          pen.fillStyle = `hsl(${(x * 7 + y * 13) % 360} 60% 50%)`;
          pen.fillRect(x, y, 50, 50);
        }
      const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
      const bytes = new Uint8Array(await blob.arrayBuffer());
      let text = '';
      for (let at = 0; at < bytes.length; at += 8192)
        text += String.fromCharCode(...bytes.subarray(at, at + 8192));
      return btoa(text);
    },
    [width, height] as const,
  );
  const plain = Buffer.from(base64, 'base64');
  // After the start of the image (FF D8): an APP1 segment as Exif 2.3 has it.
  return Buffer.concat([plain.subarray(0, 2), exifWithPlace(), plain.subarray(2)]);
}

/** APP1 with one GPS directory: 35° 57' 11.16" N. TIFF 6.0 directories; tags of Exif 2.3, table 15. */
function exifWithPlace(): Buffer {
  const tiff = Buffer.alloc(8 + 2 + 12 + 4 + 2 + 24 + 4 + 24);
  tiff.write('MM', 0);
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(1, 8);
  entry(tiff, 10, { tag: 0x8825, type: 4, count: 1, value: 26 });
  tiff.writeUInt16BE(2, 26);
  entry(tiff, 28, { tag: 1, type: 2, count: 2, value: 0 });
  tiff.write('N\0', 36);
  entry(tiff, 40, { tag: 2, type: 5, count: 3, value: 56 });
  for (const [at, part] of [35, 1, 57, 1, 1116, 100].entries()) tiff.writeUInt32BE(part, 56 + at * 4);
  const body = Buffer.concat([Buffer.from('Exif\0\0'), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

function entry(
  tiff: Buffer,
  at: number,
  { tag, type, count, value }: { tag: number; type: number; count: number; value: number },
): void {
  tiff.writeUInt16BE(tag, at);
  tiff.writeUInt16BE(type, at + 2);
  tiff.writeUInt32BE(count, at + 4);
  tiff.writeUInt32BE(value, at + 8);
}

/** Kinds of segments of a JPEG, up to the picture itself, by their second byte: 0xE1 is APP1, where EXIF stands. */
export function segmentsOf(jpeg: Uint8Array): number[] {
  const kinds: number[] = [];
  for (let at = 2; at + 4 <= jpeg.length && jpeg[at] === 0xff; ) {
    const kind = jpeg[at + 1] ?? 0;
    kinds.push(kind);
    if (kind === 0xda) break;
    at += 2 + ((jpeg[at + 2] ?? 0) << 8) + (jpeg[at + 3] ?? 0);
  }
  return kinds;
}

/** Width and height as the frame header of a JPEG gives them (ITU T.81, B.2.2). */
export function sizeOf(jpeg: Uint8Array): { width: number; height: number } | undefined {
  for (let at = 2; at + 9 <= jpeg.length && jpeg[at] === 0xff; ) {
    const kind = jpeg[at + 1] ?? 0;
    const two = (from: number) => ((jpeg[from] ?? 0) << 8) + (jpeg[from + 1] ?? 0);
    if (kind >= 0xc0 && kind <= 0xc2) return { height: two(at + 5), width: two(at + 7) };
    at += 2 + two(at + 2);
  }
  return undefined;
}
