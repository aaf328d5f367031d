// One-time codes: shown on the screen of this computer, typed or scanned on a phone once. One counts at a time,
// for ten minutes, and dies after ten wrong tries; only its hash is kept, in memory.
import { randomBytes } from 'node:crypto';
import type { Role } from './role.ts';
import { hashOfToken, sameHash } from './token.ts';

/** Milliseconds for which a code counts. */
const codeLifetime = 10 * 60_000;
const mostWrong = 10;

export type Code = Readonly<{
  /** As it is shown: three groups of three, 45 random bits. */
  code: string;
  role: Role;
  /** Milliseconds since 1970. */
  expires: number;
}>;

export type Taken =
  | { ok: true; role: Role; giveBack: () => void }
  | { ok: false; why: 'wrong' | 'used' | 'expired' | 'no-code' };

export type Codes = Readonly<{
  /** Makes a code for one device; the one before counts no more. */
  make: (role: Role) => Code;
  /** Uses up the code that was typed. `giveBack` makes it count again where pairing failed for another reason. */
  take: (typed: string) => Taken;
}>;

type Kept = { hash: string; role: Role; expires: number; wrong: number; used: boolean };

/** @param now milliseconds since 1970 */
export function oneTimeCodes(now: () => number): Codes {
  let kept: Kept | undefined;
  return {
    make: (role) => {
      const plain = randomCode();
      const expires = now() + codeLifetime;
      kept = { hash: hashOfToken(plain), role, expires, wrong: 0, used: false };
      return { code: plain.replace(/(...)(?=.)/g, '$1-'), role, expires };
    },
    take: (typed) => {
      const current = kept;
      if (current === undefined) return { ok: false, why: 'no-code' };
      if (!sameHash(hashOfToken(plainOf(typed)), current.hash)) {
        current.wrong += 1;
        if (current.wrong >= mostWrong) kept = undefined;
        return { ok: false, why: 'wrong' };
      }
      if (current.used) return { ok: false, why: 'used' };
      if (now() >= current.expires) return { ok: false, why: 'expired' };
      current.used = true;
      const giveBack = () => {
        current.used = false;
      };
      return { ok: true, role: current.role, giveBack };
    },
  };
}

/** The digits and letters of Crockford's Base32: no I, L, O and U, which are misread as others. */
const symbols = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

function randomCode(): string {
  return [...randomBytes(9)].map((byte) => symbols.charAt(byte % symbols.length)).join('');
}

/** What was meant, whatever way it was typed: small letters, spaces, O for 0, I or L for 1. */
function plainOf(typed: string): string {
  return typed.toUpperCase().replaceAll(/[\s-]/g, '').replaceAll('O', '0').replaceAll(/[IL]/g, '1');
}
