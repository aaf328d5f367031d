// One-time codes: single use, ten minutes, ten tries, and read the way people type them.
import { describe, expect, it } from 'vitest';
import { oneTimeCodes } from '../../../src/server/access/index.ts';

function clock() {
  let time = 1_000_000;
  return { now: () => time, pass: (milliseconds: number) => (time += milliseconds) };
}
const minute = 60_000;
/** A code that is certainly another one. */
const wrongOf = (code: string) => (code.startsWith('0') ? `1${code.slice(1)}` : `0${code.slice(1)}`);

describe('a one-time code', () => {
  it('is written in symbols that are not mistaken for each other, nine of 32 (45 bits)', () => {
    // Crockford, "Base32": excludes I, L, O and U. https://www.crockford.com/base32.html (from memory)
    const codes = oneTimeCodes(() => 0);
    const made = new Set(Array.from({ length: 200 }, () => codes.make('recorder').code));
    expect(made.size).toBe(200);
    for (const code of made)
      expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{3}$/);
    expect(new Set([...made].join('').replaceAll('-', '')).size).toBe(32);
  });

  it('gives the role that it was made for, once', () => {
    const codes = oneTimeCodes(() => 0);
    const { code } = codes.make('reader');
    expect(codes.take(code)).toMatchObject({ ok: true, role: 'reader' });
    expect(codes.take(code)).toEqual({ ok: false, why: 'used' });
  });

  it('is understood in small letters, without hyphens, and with O and I for 0 and 1', () => {
    const codes = oneTimeCodes(() => 0);
    for (let count = 0; count < 300; count += 1) {
      const { code } = codes.make('recorder');
      const typed = code.toLowerCase().replaceAll('-', ' ').replaceAll('0', 'o').replaceAll('1', 'l');
      expect(codes.take(` ${typed}`)).toMatchObject({ ok: true });
    }
  });

  it('counts for ten minutes', () => {
    const { now, pass } = clock();
    const codes = oneTimeCodes(now);
    const { code, expires } = codes.make('recorder');
    expect(expires - now()).toBe(10 * minute);
    pass(10 * minute);
    expect(codes.take(code)).toEqual({ ok: false, why: 'expired' });
    const next = codes.make('recorder');
    pass(10 * minute - 1);
    expect(codes.take(next.code)).toMatchObject({ ok: true });
  });

  it('dies after ten wrong tries; then even the right one is refused until another is made', () => {
    const codes = oneTimeCodes(() => 0);
    const { code } = codes.make('recorder');
    for (let count = 0; count < 10; count += 1)
      expect(codes.take(wrongOf(code))).toEqual({ ok: false, why: 'wrong' });
    expect(codes.take(code)).toEqual({ ok: false, why: 'no-code' });
    expect(codes.take(codes.make('recorder').code)).toMatchObject({ ok: true });
  });

  it('gives way to the next one that is made', () => {
    const codes = oneTimeCodes(() => 0);
    const first = codes.make('keeper');
    codes.make('reader');
    expect(codes.take(first.code)).toEqual({ ok: false, why: 'wrong' });
  });

  it('counts again when it is given back, because pairing failed for another reason', () => {
    const codes = oneTimeCodes(() => 0);
    const { code } = codes.make('recorder');
    const taken = codes.take(code);
    if (taken.ok) taken.giveBack();
    expect(codes.take(code)).toMatchObject({ ok: true });
  });

  it('is refused before any was made, and when it is no code at all', () => {
    const codes = oneTimeCodes(() => 0);
    expect(codes.take('ABC-DEF-GHJ')).toEqual({ ok: false, why: 'no-code' });
    codes.make('recorder');
    for (const typed of ['', '-', ' ', 'x'.repeat(100_000), 'ÄÖÜ'])
      expect(codes.take(typed)).toMatchObject({ ok: false });
  });
});
