// Base64 against the vectors of RFC 4648 section 10, its alphabet (table 1) and Node's own writer.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromBase64, toBase64 } from '../../src/log/entry/index.ts';

/** RFC 4648 section 10. */
const vectors = [
  ['', ''],
  ['f', 'Zg=='],
  ['fo', 'Zm8='],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg=='],
  ['fooba', 'Zm9vYmE='],
  ['foobar', 'Zm9vYmFy'],
] as const;
const utf8 = new TextEncoder();

describe('base64', () => {
  it.each(vectors)('of "%s" is "%s", and back (RFC 4648 section 10)', (text, base64) => {
    expect(toBase64(utf8.encode(text))).toBe(base64);
    expect(fromBase64(base64)).toEqual(utf8.encode(text));
  });

  it('has the 64 characters of RFC 4648 table 1, in their order', () => {
    const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
    for (const [value, character] of alphabet.split('').entries())
      expect(toBase64(Uint8Array.of(value << 2))).toBe(`${character}A==`);
  });

  it('of any bytes is what Node writes, also beyond what one call can take', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const text = Buffer.from(bytes).toString('base64');
        expect(toBase64(bytes)).toBe(text);
        expect(fromBase64(text)).toEqual(bytes);
      }),
    );
    const large = Uint8Array.from({ length: 200_001 }, (_, index) => index * 7);
    expect(toBase64(large)).toBe(Buffer.from(large).toString('base64'));
    expect(large).toHaveLength(fromBase64(toBase64(large))?.length ?? 0);
    expect(Buffer.compare(large, fromBase64(toBase64(large)) ?? new Uint8Array())).toBe(0);
  });

  it.each([
    ['without padding', 'Zg'],
    ['with padding in the middle', 'Zg==Zg=='],
    ['with a line end (section 3.1)', 'Zm9v\n'],
    ['with spaces', 'Zm 9v'],
    ['of the alphabet for addresses (section 5)', '_-8='],
    ['with bits beyond the last byte (section 3.5)', 'Zh=='],
    ['of other characters', 'Zm9ü'],
  ])('is refused %s', (_what, text) => {
    expect(fromBase64(text)).toBeUndefined();
  });
});
