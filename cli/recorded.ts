// What a person reads after recording: what was recorded, and what to mind now.
import { readBody } from '../src/events/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { knownNames, type Recorded } from '../src/record/index.ts';
import { type Folded, fold, openFindings } from '../src/stand/index.ts';
import { sayEvent } from './says.ts';
import { exitCodes, Failure, paint, say, sayJson } from './terminal/index.ts';

type Done = Extract<Recorded, { outcome: 'recorded' }>;

/** Prints what was recorded; a conflict ends the command. */
export async function describeRecorded(
  log: Log,
  { receipts, envelopes, folded }: Done,
  json: boolean,
): Promise<void> {
  if (json) sayJson({ receipts, entries: envelopes });
  if (receipts.some(({ outcome }) => outcome === 'conflict'))
    throw new Failure(
      exitCodes.conflict,
      'An entry with that id is in the logbook with other bytes; both are kept.',
    );
  if (json) return;
  await sayStops(envelopes, folded);
  const after = fold([...folded.entries.values(), ...envelopes]);
  const names = await knownNames(log, after);
  for (const [index, envelope] of envelopes.entries()) {
    const receipt = receipts[index];
    const number = receipt !== undefined && 'position' in receipt ? receipt.position : '?';
    const reading = readBody(envelope.type, envelope.v, envelope.body);
    say(
      `Recorded as entry ${number}: ${reading.ok ? sayEvent(reading.event, after, names) : envelope.type}.`,
    );
  }
  const before = new Set(openFindings(folded.findings).map(({ sentence }) => sentence));
  for (const { sentence, remedy } of openFindings(after.findings)) {
    if (!before.has(sentence)) say(`Finding: ${sentence} ${remedy}`);
  }
  if (envelopes.some(({ type }) => type === 'stem-felled')) (await import('./cautions.ts')).sayCaution();
}

/** The stop cards that these entries call for: they come before anything else that is said. */
async function sayStops(envelopes: Done['envelopes'], { stand }: Folded): Promise<void> {
  const { stopReasons } = await import('../src/felling/index.ts');
  const reasons = envelopes.flatMap(({ type, v, body, happenedAt }) => {
    const reading = readBody(type, v, body);
    return reading.ok ? stopReasons(stand, reading.event, happenedAt.at) : [];
  });
  if (reasons.length === 0) return;
  const { stopLines } = await import('./cautions.ts');
  for (const reason of new Set(reasons)) for (const line of stopLines(reason)) say(paint.bold(line));
}
