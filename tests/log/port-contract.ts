// What every log must do, whatever keeps it. Give it a way to make an empty log and the tests run on that.
import type { Log } from '../../src/log/store/index.ts';
import { appendingContract } from './contract-appending.ts';
import { keepingContract } from './contract-keeping.ts';
import { readingContract } from './contract-reading.ts';

export function portContract(name: string, make: () => Promise<Log>): void {
  appendingContract(name, make);
  readingContract(name, make);
  keepingContract(name, make);
}
