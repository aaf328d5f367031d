// The exchange line: what is written can be read again byte for byte, and what is not one says what to do.
import { createHash, generateKeyPairSync, sign } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bytesToSign,
  type ExchangeLine,
  keyIdOf,
  parseEnvelope,
  readExchangeLine,
  readPublicKey,
  signatureFrom,
  signatureIssue,
  toBase64,
  writeExchangeLine,
} from '../../src/log/entry/index.ts';
import { verifyEd25519 } from '../../src/log/store/index.ts';
import { entryOf, entryWithBody, sealedRow, signatureOf } from './made-up.ts';

function read(text: string): ExchangeLine {
  const reading = readExchangeLine(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.issue));
  return reading.line;
}

function issueOf(value: unknown) {
  const reading = readExchangeLine(typeof value === 'string' ? value : JSON.stringify(value));
  return reading.ok ? undefined : reading.issue;
}

describe('an exchange line', () => {
  const bytes = entryWithBody(1, { text: 'hêtre, 14 in ≈ 36 cm\n"quoted" \u2028 🌳' });
  const whole: ExchangeLine = {
    bytes,
    signature: signatureOf('one'),
    sealed: [sealedRow('Ann Weaver'), sealedRow('a picture', 'image/jpeg')],
    receipt: { position: 17, receivedAt: '2026-03-14T17:00:00.000Z' },
  };

  it('brings entry, signature, rows and receipt as they were, on one line', () => {
    const text = writeExchangeLine(whole);
    expect(text).not.toMatch(/[\n\r]/);
    const back = read(text);
    expect(back.bytes).toEqual(bytes);
    expect(back.signature).toEqual(whole.signature);
    expect(back.receipt).toEqual(whole.receipt);
    expect(back.sealed?.map((row) => [row.hash, Buffer.from(row.bytes).toString(), row.mediaType])).toEqual(
      whole.sealed?.map((row) => [row.hash, Buffer.from(row.bytes).toString(), row.mediaType]),
    );
    expect(back.sealed?.map(({ salt }) => Buffer.from(salt))).toEqual(whole.sealed?.map(({ salt }) => salt));
  });

  it('holds the entry as a JSON string and nothing that is not there', () => {
    const line = JSON.parse(writeExchangeLine({ bytes })) as Record<string, unknown>;
    expect(Object.keys(line)).toEqual(['entry']);
    expect(line.entry).toBe(new TextDecoder().decode(bytes));
    expect(Object.keys(read(writeExchangeLine({ bytes })))).toEqual(['bytes']);
  });

  it('brings any text of an entry byte for byte', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const entry = entryWithBody(2, { text });
        expect(read(writeExchangeLine({ bytes: entry })).bytes).toEqual(entry);
        expect(parseEnvelope(read(writeExchangeLine({ bytes: entry })).bytes).ok).toBe(true);
      }),
    );
  });

  it('is not written for bytes that are no text', () => {
    expect(() => writeExchangeLine({ bytes: Uint8Array.of(0xff, 0xfe) })).toThrow(TypeError);
  });

  it.each([
    ['line', '{"entry": "'],
    ['line', '[]'],
    ['line', 'null'],
    ['entry', {}],
    ['entry', { entry: { id: 'x' } }],
    ['entry', '{"entry": "\\ud800"}'],
    ['twig', { entry: '', twig: 1 }],
    ['signature', { entry: '', signature: 'abc' }],
    ['signature', { entry: '', signature: { keyId: 'ab' } }],
    ['sealed', { entry: '', sealed: {} }],
    ['sealed.0', { entry: '', sealed: [{}] }],
    ['sealed.0', { entry: '', sealed: [{ hash: 'a'.repeat(64), salt: 'Zg', bytes: '', mediaType: 'x' }] }],
    ['sealed.0', { entry: '', sealed: [{ hash: 'a'.repeat(63), salt: '', bytes: '', mediaType: 'x' }] }],
    ['receipt', { entry: '', receipt: { position: -1, receivedAt: '2026-03-14T17:00:00Z' } }],
    ['receipt', { entry: '', receipt: { position: 1, receivedAt: 'noon' } }],
  ])('with a bad %s is refused: %j', (field, value) => {
    const issue = issueOf(value);
    expect(issue?.field).toBe(field);
    expect(issue?.remedy).not.toBe('');
  });
});

describe('the signature of an entry', () => {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519');
  const raw = new Uint8Array(Buffer.from(publicKey.export({ format: 'jwk' }).x ?? '', 'base64url'));
  const key = readPublicKey(toBase64(raw));
  const keys = key === undefined ? [] : [key];
  const bytes = entryOf(1);
  const signature = signatureFrom(raw, sign(null, bytesToSign(bytes), privateKey));

  it('names its key by the first 16 digits of the hash of 32 bytes', () => {
    const expected = createHash('sha256').update(raw).digest('hex').slice(0, 16);
    expect(keyIdOf(raw)).toBe(expected);
    expect(signature.keyId).toBe(expected);
    expect(signature.signature).toMatch(/^[A-Za-z0-9+/]{86}==$/);
  });

  it('holds for the bytes it was made of, and for no others', () => {
    expect(signatureIssue({ bytes, signature }, keys, verifyEd25519)).toBeUndefined();
    const wrong = signatureIssue({ bytes: entryOf(2), signature }, keys, verifyEd25519);
    expect(wrong?.field).toBe('signature');
    expect(wrong?.remedy).toMatch(/not that of these bytes/);
  });

  it('is missed where the device has a key, and not believed by another key', () => {
    expect(signatureIssue({ bytes }, keys, verifyEd25519)?.remedy).toMatch(/signs its entries/);
    expect(signatureIssue({ bytes, signature }, [], verifyEd25519)?.remedy).toMatch(/pair the device again/);
  });

  it('that is none is an issue, not an error', () => {
    for (const text of ['', 'x', toBase64(new Uint8Array(63)), toBase64(new Uint8Array(64))])
      expect(
        signatureIssue({ bytes, signature: { ...signature, signature: text } }, keys, verifyEd25519),
      ).toBeDefined();
  });

  it('has a key of 32 bytes in base64', () => {
    for (const text of ['', 'abc', toBase64(new Uint8Array(31)), toBase64(new Uint8Array(33))])
      expect(readPublicKey(text)).toBeUndefined();
  });
});
