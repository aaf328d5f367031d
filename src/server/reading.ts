// Reading along: the server keeps the folded stand and reads only what was appended since, by whichever
// process. Other moments are folded from the same entries.
import type { TreeHead } from '../log/entry/index.ts';
import type { Log } from '../log/store/index.ts';
import { headAt, knownNames, type Moment, nameRows, toEntry } from '../record/index.ts';
import { type Folded, type Folding, fold, type LogEntry, type Names, startFolding } from '../stand/index.ts';
import { turns } from './turns.ts';

/** The stand at a moment. It is the server's own, so it must be used before anything is awaited. */
export type Look = Readonly<{
  folded: Folded;
  names: Names;
  /** The head at the size that was folded. */
  head: TreeHead;
}>;

export type Reading = Readonly<{
  /**
   * Looks at the stand as it is, or at another moment, and gives what `use` makes of it.
   * @throws LogbookError when the file cannot be read
   */
  look: <T>(moment: Moment, use: (look: Look) => T) => Promise<T>;
}>;

/** Numbers of the entries in the log, by id. */
export function numbersOf({ folded }: Look): Map<string, number> {
  return new Map(
    [...folded.entries.values()].flatMap(({ id, position }) =>
      position === undefined ? [] : [[id, position]],
    ),
  );
}

type Kept = {
  entries: LogEntry[];
  folding: Folding;
  head: TreeHead;
  names?: Names;
  /** Rows of names and contacts that had not come when the names were read. */
  awaited: readonly string[];
};

export function readAlong(log: Log): Reading {
  const inTurn = turns();
  let kept = nothing();

  const catchUp = async (): Promise<void> => {
    const head = await log.head();
    if (!(await continues(log, kept.head, head))) kept = nothing();
    if (head.size === kept.head.size) {
      kept.head = head;
      return;
    }
    const fresh: LogEntry[] = [];
    const range = { from: kept.head.size, to: head.size };
    for await (const page of log.read(range)) fresh.push(...page.map(toEntry));
    kept.folding.add(fresh);
    kept.entries.push(...fresh);
    kept.head = head;
    delete kept.names;
  };
  const now = async (): Promise<Look> => {
    const folded = kept.folding.folded();
    if ((await log.missingRows(kept.awaited)).length < kept.awaited.length) delete kept.names;
    if (kept.names === undefined) {
      kept.awaited = await log.missingRows([...nameRows(folded)]);
      kept.names = await knownNames(log, folded);
    }
    return { folded, names: kept.names, head: kept.head };
  };
  const then = async ({ until, size = kept.head.size }: Moment): Promise<Look> => {
    const folded = fold(kept.entries.slice(0, size), until === undefined ? {} : { until });
    const head = size === kept.head.size ? kept.head : await headAt(log, { size });
    return { folded, names: await knownNames(log, folded), head };
  };
  return {
    look: (moment, use) =>
      inTurn(async () => {
        await catchUp();
        const isNow = moment.until === undefined && moment.size === undefined;
        return use(isNow ? await now() : await then(moment));
      }),
  };
}

function nothing(): Kept {
  return { entries: [], folding: startFolding(), head: { size: 0, root: '' }, awaited: [] };
}

/** Whether the log begins with what was read before; a file that was put back from a backup may not. */
async function continues(log: Log, before: TreeHead, now: TreeHead): Promise<boolean> {
  if (before.size === 0) return true;
  return now.size >= before.size && (await log.rootAt(before.size)) === before.root;
}
