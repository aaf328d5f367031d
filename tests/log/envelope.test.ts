// What the log takes for an entry: RFC 8785 bytes, strict UTF-8, and every member of the envelope as it must be.
import { describe, expect, it } from 'vitest';
import {
  fromHex,
  headText,
  type JsonBody,
  leafBytes,
  longestEntry,
  parseEnvelope,
  parseHead,
  readEnvelope,
  seal,
  toHex,
  writeEntry,
} from '../../src/log/entry/index.ts';
import { entryOf, entryWithBody, envelopeOf } from './made-up.ts';

const utf8 = new TextEncoder();
const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** The part of the canonical bytes that is the body. */
function bodyText(json: string): string {
  const written = text(entryWithBody(1, JSON.parse(json) as JsonBody));
  const start = written.indexOf('"body":') + '"body":'.length;
  return written.slice(start, written.indexOf(',"by":'));
}

function fieldRefused(bytes: Uint8Array): string | undefined {
  const reading = parseEnvelope(bytes);
  return reading.ok ? undefined : reading.issue.field;
}

function fieldRefusedIn(changes: Record<string, unknown>): string | undefined {
  const all = Object.entries({ ...envelopeOf(1), ...changes }).filter(([, value]) => value !== undefined);
  const sorted = Object.fromEntries(all.toSorted(([a], [b]) => (a < b ? -1 : 1)));
  return fieldRefused(utf8.encode(JSON.stringify(sorted)));
}

describe('canonical bytes (RFC 8785)', () => {
  it('are those of the worked example in sections 3.2.2 to 3.2.4', () => {
    const example = String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`;
    const published =
      '7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333332e' +
      '333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c7530303066' +
      '5c6e4127425c225c5c5c5c5c222f227d';
    expect(toHex(utf8.encode(bodyText(example)))).toBe(published);
  });

  it('sort members by UTF-16 code units as in section 3.2.3', () => {
    const example = String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`;
    const values = [...bodyText(example).matchAll(/:"([^"]*)"/g)].map((match) => match[1]);
    expect(values).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  // RFC 8785 appendix B, IEEE 754 doubles and their text.
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('write the double %s as %s (appendix B)', (hex, published) => {
    const number = Buffer.from(hex, 'hex').readDoubleBE();
    expect(text(entryWithBody(1, { number }))).toContain(`{"number":${published}}`);
  });

  it('refuse what JSON cannot keep: NaN, infinity, half a surrogate pair', () => {
    expect(() => entryWithBody(1, { number: Number.NaN })).toThrow(TypeError);
    expect(() => entryWithBody(1, { number: Number.POSITIVE_INFINITY })).toThrow(TypeError);
    expect(() => entryWithBody(1, { note: '\ud800' })).toThrow(TypeError);
    expect(() => entryWithBody(1, { '\udc00': 1 })).toThrow(TypeError);
  });

  it('come back as they went in', () => {
    const envelope = envelopeOf(7, {
      body: { note: 'Eiche mit Höhle, 36 cm 🌳', list: [1, null, true, {}] },
    });
    const bytes = writeEntry(envelope);
    expect(readEnvelope(bytes)).toEqual(envelope);
    expect(parseEnvelope(bytes)).toEqual({ ok: true, envelope });
  });
});

describe('bytes that are no entry are refused by name', () => {
  it('when they are no UTF-8, no JSON, no object, or too long', () => {
    const broken = Uint8Array.from(entryOf(1));
    broken[broken.indexOf('A'.charCodeAt(0))] = 0xff;
    expect(fieldRefused(broken)).toBe('entry');
    expect(fieldRefused(new Uint8Array())).toBe('entry');
    expect(fieldRefused(utf8.encode('[1]'))).toBe('entry');
    expect(fieldRefused(utf8.encode('null'))).toBe('entry');
    expect(fieldRefused(Uint8Array.from([0xef, 0xbb, 0xbf, ...entryOf(1)]))).toBe('entry');
    expect(fieldRefused(entryWithBody(1, { note: 'x'.repeat(longestEntry) }))).toBe('entry');
  });

  it('up to 65,535 bytes are taken', () => {
    const without = entryWithBody(1, { note: '' }).length;
    const note = 'x'.repeat(longestEntry - without);
    expect(entryWithBody(1, { note }).length).toBe(65_535);
    expect(fieldRefused(entryWithBody(1, { note }))).toBeUndefined();
    expect(fieldRefused(entryWithBody(1, { note: `${note}x` }))).toBe('entry');
  });

  it.each([
    ['a space', (json: string) => json.replace(':', ': ')],
    ['a line end', (json: string) => `${json}\n`],
    ['members in another order', (json: string) => json.replace(/("seq":\d+),("type":"[^"]*")/, '$2,$1')],
    ['a member twice', (json: string) => json.replace('"body":{', '"body":{"tag":"A0",')],
    ['a number written otherwise', (json: string) => json.replace('"seq":1', '"seq":1.0')],
    ['an escape that need not be', (json: string) => json.replace('"A1"', String.raw`"\u00411"`)],
    ['half a surrogate pair', (json: string) => json.replace('"A1"', String.raw`"\ud800"`)],
    ['minus zero', (json: string) => json.replace('"A1"', '-0')],
    ['a number too large', (json: string) => json.replace('"A1"', '1e999')],
  ])('when they hold %s', (_, change) => {
    const before = text(entryOf(1));
    const after = change(before);
    expect(after).not.toBe(before);
    expect(fieldRefused(utf8.encode(after))).toBe('entry');
  });

  it.each<[string, unknown]>([
    ['id', undefined],
    ['id', 'no uuid'],
    ['id', '6f1c2d1e-0000-4000-8000-00000000000a'],
    ['id', envelopeOf(1).id.toUpperCase()],
    ['type', 'StemMarked'],
    ['type', `a${'-a'.repeat(30)}`],
    ['v', 0],
    ['v', '1'],
    ['happenedAt', '2026-03-14T12:00:00-05:00'],
    ['happenedAt', { at: '2026-03-14T12:00:00', precision: 'minute' }],
    ['happenedAt', { at: '2026-03-14T12:00:00-05:00', precision: 'hour' }],
    ['happenedAt', { at: '2026-03-14T12:00:00-05:00', precision: 'minute', zone: 'x' }],
    ['recordedAt', '2026-02-30T99:00:00Z'],
    ['recordedAt', undefined],
    ['by', 'Ruth'],
    ['device', ''],
    ['seq', 0],
    ['seq', 1.5],
    ['seq', 2 ** 53],
    ['sealed', []],
    ['sealed', ['00']],
    ['erases', 'a'.repeat(64)],
    ['body', []],
    ['body', null],
    ['signature', 'x'],
    ['__proto__x', 1],
  ])('when %s is %j', (field, value) => {
    expect(fieldRefusedIn({ [field]: value })).toBe(field);
  });

  it('with the value and what to do', () => {
    const reading = parseEnvelope(entryOf(1, { seq: 0 }));
    expect(reading).toEqual({
      ok: false,
      issue: { field: 'seq', value: '0', remedy: expect.stringContaining('whole number from 1') as string },
    });
  });
});

describe('leaves, heads and seals', () => {
  it('a leaf is five lines that printf can write', () => {
    const leaf = { position: 7, receivedAt: '2026-03-14T17:00:00.000Z', entryHash: 'ab'.repeat(32) };
    const start = `gapledger leaf 1\n7\n2026-03-14T17:00:00.000Z\n${'ab'.repeat(32)}\n`;
    expect(text(leafBytes(leaf))).toBe(`${start}-\n`);
    const signature = { keyId: '0a1b2c3d', signature: 'c2lnbmVk' };
    expect(text(leafBytes({ ...leaf, signature }))).toBe(`${start}ed25519 0a1b2c3d c2lnbmVk\n`);
  });

  it('a head is written and read as SIZE:ROOT', () => {
    const head = { size: 12, root: '0f'.repeat(32) };
    expect(headText(head)).toBe(`12:${'0f'.repeat(32)}`);
    expect(parseHead(headText(head))).toEqual({ ok: true, head });
    expect(parseHead(` 12 : ${'0F 0f '.repeat(16)}`)).toEqual({ ok: true, head });
    for (const wrong of [
      '',
      '12',
      `012:${head.root}`,
      `-1:${head.root}`,
      `12:${head.root}0`,
      `12:${head.root.slice(1)}`,
    ])
      expect(parseHead(wrong)).toMatchObject({ ok: false, issue: { field: 'head' } });
  });

  it('a seal is SHA-256 of salt and bytes (FIPS 180-2: "abc")', () => {
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(seal(utf8.encode('bc'), utf8.encode('a'))).toBe(abc);
  });

  it('hex is read back, and refused when it is none', () => {
    expect(fromHex('00ff1A')).toEqual(Uint8Array.of(0, 255, 26));
    expect(fromHex('0')).toBeUndefined();
    expect(fromHex('zz')).toBeUndefined();
  });
});
