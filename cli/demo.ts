// gapledger demo: makes the logbook of the invented woodlot, entry by entry, as its people would have
// typed it. Ids, salts and times are fixed, so that everybody's demo is the same.
import { createHash } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { type DemoEntry, demoEntries, demoOpening } from '../fixtures/demo/woodlot.ts';
import { headText } from '../src/log/entry/index.ts';
import { createLogbook, type Log, remember } from '../src/log/store/index.ts';
import { type Desk, type Outside, openBook, recordDraft, sitDown } from '../src/record/index.ts';
import { outside, say, sayJson } from './terminal/index.ts';

export async function work([file = '']: string[], flags: { json?: boolean }): Promise<void> {
  mkdirSync(dirname(file), { recursive: true });
  const log = await createLogbook(file);
  try {
    const keeper = await writeDemo(log);
    const head = await log.head();
    const { path, logbook } = log.facts();
    if (logbook !== undefined)
      remember(path, logbook, { device: outside.newId(), person: keeper, lastSeq: 0, lastHead: head });
    if (flags.json) return sayJson({ file, head });
    say(`Made ${file}: ${head.size} entries of an invented woodlot.`);
    say(`Head: ${headText(head)}`);
    say(`Look round: gapledger stand --logbook ${file}`);
    say(`What you record there is by ${demoOpening.person.name}, unless you say --by.`);
  } finally {
    await log.close();
  }
}

/** Writes the demo into an empty logbook; gives the id of the person who keeps it. */
export async function writeDemo(log: Log): Promise<string> {
  const clock = { now: Date.parse(demoOpening.recorded) };
  const outside = fixedOutside(clock);
  const sit = (who: { device: string; person?: string }) =>
    sitDown(log, { ...who, counter: { last: 0 } }, outside);
  const opening = sit({ device: outside.newId() });
  const opened = await openBook(opening, demoOpening);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const desk: Desk = { ...opening, person: opened.person };
  const phone = sit({ device: outside.newId(), person: opened.person });
  const named = new Map<string, string>();
  for (const entry of demoEntries) {
    clock.now = Date.parse(`${entry.recorded}${offsetOf(entry.recorded)}`);
    await write(entry.on === 'phone' ? phone : desk, entry, named);
  }
  return opened.person;
}

/** Records one demo entry; earlier ones that a correction names in words are put in by id. */
async function write(desk: Desk, entry: DemoEntry, named: Map<string, string>): Promise<void> {
  const fields = { ...entry.fields };
  for (const field of ['replaces', 'strikes'] as const) {
    const name = fields[field];
    if (name !== undefined) fields[field] = named.get(name) ?? name;
  }
  const draft = {
    kind: entry.kind,
    fields,
    ...(entry.at === undefined ? {} : { at: entry.at }),
    ...(entry.by === undefined ? {} : { by: entry.by }),
    ...(entry.answers === undefined ? {} : { answers: entry.answers }),
  };
  const recorded = await recordDraft(desk, draft);
  if (recorded.outcome !== 'recorded')
    throw new Error(`The demo does not hold: ${JSON.stringify({ draft, recorded }, null, 2)}`);
  const [envelope] = recorded.envelopes;
  if (envelope === undefined) return;
  if (entry.kind === 'stem-marked') named.set(`stem ${entry.fields.tag}`, envelope.id);
  if (entry.kind === 'stem-felled') {
    const first = `fall of ${entry.fields.stem}`;
    named.set(named.has(first) ? `second ${first}` : first, envelope.id);
  }
}

/** Eastern time of the demo's year: summer time from 8 March to 1 November 2026. */
function offsetOf(local: string): string {
  return local >= '2026-03-08T02' && local < '2026-11-01T02' ? '-04:00' : '-05:00';
}

/** Ids are UUIDv7 by the demo's clock, their random part counted through SHA-256; salts likewise. */
function fixedOutside(clock: { now: number }): Outside {
  let count = 0;
  const digest = (what: string) => {
    count += 1;
    return createHash('sha256').update(`gapledger demo ${what} ${count}`).digest();
  };
  const newId = () => {
    const time = clock.now.toString(16).padStart(12, '0');
    const counted = (count % 4096).toString(16).padStart(3, '0');
    const random = digest('id').toString('hex');
    return `${time.slice(0, 8)}-${time.slice(8)}-7${counted}-8${random.slice(0, 3)}-${random.slice(3, 15)}`;
  };
  return { now: () => clock.now, newId, newSalt: () => new Uint8Array(digest('salt').subarray(0, 16)) };
}
