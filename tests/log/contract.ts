// What the parts of the contract have in common.
import { expect, it } from 'vitest';
import type { Log, Receipt } from '../../src/log/store/index.ts';

/** Gives a way to write tests, each of which gets an empty log that is closed after it. */
export function eachWith(make: () => Promise<Log>) {
  return (fact: string, work: (log: Log) => Promise<void>): void => {
    it(fact, async () => {
      const log = await make();
      try {
        await work(log);
      } finally {
        await log.close();
      }
    });
  };
}

/** The one receipt. */
export function only(receipts: readonly Receipt[]): Receipt {
  expect(receipts).toHaveLength(1);
  return receipts[0] as Receipt;
}
