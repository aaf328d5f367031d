// One line of the table that `npm run bench` prints, and how its figures are measured.

export type BenchRow = Readonly<{
  /** What is timed, exactly. */
  what: string;
  /** In `unit`. */
  measured: number;
  unit: string;
  /** What it is compared with, in the same run. */
  against: string;
  baseline: number;
  /** Measured by baseline. */
  ratio: number;
  /** What has to be reached. */
  goal: string;
  met: boolean;
}>;

function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? Number.NaN) + (sorted[Math.ceil(middle)] ?? Number.NaN)) / 2;
}

/** A piece of work that prepares what it needs, untimed, and gives the part to be timed. */
export type Work = () => Promise<() => unknown> | (() => unknown);

/**
 * Runs pieces of work in turn, so that whatever else the machine does hits all of them, once to warm up and then
 * `times` times. Gives the median of each in seconds.
 */
export async function interleaved<Name extends string>(
  works: Readonly<Record<Name, Work>>,
  times: number,
): Promise<Record<Name, number>> {
  const names = Object.keys(works) as Name[];
  const taken = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (let round = 0; round <= times; round += 1) {
    for (const name of names) {
      const work = await works[name]();
      globalThis.gc?.();
      const start = performance.now();
      await work();
      if (round > 0) taken[name].push((performance.now() - start) / 1000);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(taken[name])])) as Record<Name, number>;
}
