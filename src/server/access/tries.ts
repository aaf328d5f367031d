// How often an address may be wrong. Guessing has to be slow; being right is never held up.
import { isIPv6 } from 'node:net';
import { RateLimiterMemory } from 'rate-limiter-flexible';

export type Tries = Readonly<{
  /** Seconds that this address has to wait; 0 when it may try. */
  waits: (address: string) => Promise<number>;
  /** Notes that this address was wrong; gives the seconds that it has to wait now. */
  wrong: (address: string) => Promise<number>;
}>;

/** Lets every address be wrong so many times within so many seconds. */
export function triesBy(most: number, seconds: number): Tries {
  const limiter = new RateLimiterMemory({ points: most, duration: seconds });
  const wait = (state: { consumedPoints: number; msBeforeNext: number } | null) =>
    state === null || state.consumedPoints < most ? 0 : Math.max(1, Math.ceil(state.msBeforeNext / 1000));
  return {
    waits: async (address) => wait(await limiter.get(netOf(address))),
    wrong: async (address) => wait(await limiter.penalty(netOf(address))),
  };
}

/** One device has all addresses of an IPv6 /64 to choose from (RFC 4291, RFC 8981), so these count as one. */
function netOf(address: string): string {
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, '').replace(/%.*$/, '');
  if (!isIPv6(plain)) return plain;
  const [left = '', right] = plain.split('::');
  const head = left === '' ? [] : left.split(':');
  const tail = right === undefined || right === '' ? [] : right.split(':');
  const zeros = right === undefined ? 0 : Math.max(0, 8 - head.length - tail.length);
  return [...head, ...Array<string>(zeros).fill('0'), ...tail].slice(0, 4).join(':');
}
