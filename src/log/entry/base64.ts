// Base64 as RFC 4648 section 4 has it, with padding; by what browsers and Node both bring along.

/** So many bytes at a time: a call takes only so many arguments. */
const stride = 0x80_00;

export function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let start = 0; start < bytes.length; start += stride)
    text += String.fromCharCode(...bytes.subarray(start, start + stride));
  return btoa(text);
}

/**
 * The bytes of a base64 text; undefined when it is not what `toBase64` would write: no spaces, no line ends, padding
 * in full, and no bits set beyond the last byte (RFC 4648 section 3.5), so that the same bytes have one text.
 */
export function fromBase64(text: string): Uint8Array | undefined {
  let decoded: string;
  try {
    decoded = atob(text);
  } catch {
    return undefined;
  }
  if (btoa(decoded) !== text) return undefined;
  const bytes = new Uint8Array(decoded.length);
  for (let index = 0; index < decoded.length; index += 1) bytes[index] = decoded.charCodeAt(index);
  return bytes;
}
