// The short way of telling canonical bytes must never say yes where RFC 8785 says no, nor the other way round.
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deepestNesting, isCanonical, orderOf } from '../../src/log/entry/canonical.ts';
import { isTime, parseEnvelope } from '../../src/log/entry/index.ts';
import { entryWithBody } from './made-up.ts';

const says = (text: string): boolean => {
  const value: unknown = JSON.parse(text);
  return isCanonical(value, text, orderOf(value));
};

/** A list in a list in a list …, so many deep. */
const nested = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);

describe('canonical text', () => {
  it('is told from other spellings just as the library that writes it would', () => {
    const keys = fc.oneof(fc.string({ unit: 'binary', maxLength: 3 }), fc.nat({ max: 30 }).map(String));
    const json = fc.letrec<{ value: unknown }>((tie) => ({
      value: fc.oneof(
        { depthSize: 'small' },
        fc.string({ unit: 'binary', maxLength: 4 }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom(null, true, false, 0, '\\ud800', '"', '\u2028'),
        fc.array(tie('value'), { maxLength: 3 }),
        fc.dictionary(keys, tie('value'), { maxKeys: 4 }),
      ),
    })).value;
    const seen = { canonical: 0, other: 0 };
    fc.assert(
      fc.property(json, fc.boolean(), (value, sort) => {
        const text = sort ? canonicalize(value) : JSON.stringify(value);
        if (text === undefined) return;
        const right = canonicalize(JSON.parse(text)) === text;
        seen[right ? 'canonical' : 'other'] += 1;
        expect(says(text)).toBe(right);
      }),
      { numRuns: 3000 },
    );
    expect(seen.canonical).toBeGreaterThan(500);
    expect(seen.other).toBeGreaterThan(50);
  });

  it('is recognised where JavaScript would keep its members in another order', () => {
    expect(says('{"-":1,"1":2}')).toBe(true);
    expect(says('{"1":2,"-":1}')).toBe(false);
    expect(says('{"":1,"a":2}')).toBe(true);
  });

  it('never holds half a surrogate pair, however it is written', () => {
    expect(says(String.raw`"\ud800"`)).toBe(false);
    expect(says(String.raw`{"\udfff":1}`)).toBe(false);
    expect(says(String.raw`"\\ud800"`)).toBe(true);
  });

  it('is looked into no deeper than the limit, whatever somebody sends', () => {
    expect(orderOf(JSON.parse(nested(deepestNesting)))).toBe('sorted');
    expect(orderOf(JSON.parse(nested(deepestNesting + 1)))).toBe('too-deep');
    const reading = parseEnvelope(new TextEncoder().encode(nested(32_000)));
    expect(reading).toMatchObject({
      ok: false,
      issue: { field: 'entry', remedy: expect.stringContaining('nest') as string },
    });
    expect(parseEnvelope(entryWithBody(1, { list: JSON.parse(nested(deepestNesting - 2)) as [] })).ok).toBe(
      true,
    );
    expect(parseEnvelope(entryWithBody(1, { list: JSON.parse(nested(deepestNesting - 1)) as [] })).ok).toBe(
      false,
    );
  });
});

describe('a time', () => {
  it.each([
    // RFC 3339 section 5.8.
    '1985-04-12T23:20:50.52Z',
    '1996-12-19T16:39:57-08:00',
    '1937-01-01T12:00:27.87+00:20',
    // Leap days by RFC 3339 appendix C.
    '2024-02-29T00:00:00Z',
    '2000-02-29T00:00:00Z',
  ])('such as %s is one', (text) => expect(isTime(text)).toBe(true));

  it.each([
    // RFC 3339 appendix C: no leap days in 1900 and 2026.
    '1900-02-29T00:00:00Z',
    '2026-02-29T00:00:00Z',
    '2026-04-31T00:00:00Z',
    '2026-13-01T00:00:00Z',
    '2026-03-14T24:00:00Z',
    '2026-03-14T09:30:00',
    '2026-03-14T09:30:00+24:00',
    '2026-03-14 09:30:00Z',
    '2026-03-14T09:30Z',
  ])('such as %s is none', (text) => expect(isTime(text)).toBe(false));

  it('in a leap second (RFC 3339 section 5.8) is none here, because devices keep no such time', () =>
    expect(isTime('1990-12-31T23:59:60Z')).toBe(false));
});
