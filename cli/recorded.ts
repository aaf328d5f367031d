// What a person reads after recording: what was recorded, and what to mind now.
import { readBody } from '../src/events/index.ts';
import type { Recorded } from '../src/record/index.ts';
import { fold, openFindings } from '../src/stand/index.ts';
import { sayEvent } from './says.ts';
import { exitCodes, Failure, paint, say, sayJson } from './terminal/index.ts';

type Done = Extract<Recorded, { outcome: 'recorded' }>;

/** Prints what was recorded; a conflict ends the command. */
export async function describeRecorded({ receipts, envelopes, folded }: Done, json: boolean): Promise<void> {
  if (json) sayJson({ receipts, entries: envelopes });
  if (receipts.some(({ outcome }) => outcome === 'conflict'))
    throw new Failure(
      exitCodes.conflict,
      'An entry with that id is in the logbook with other bytes; both are kept.',
    );
  if (json) return;
  const after = fold([...folded.entries.values(), ...envelopes]);
  for (const [index, envelope] of envelopes.entries()) {
    const receipt = receipts[index];
    const number = receipt !== undefined && 'position' in receipt ? receipt.position : '?';
    const reading = readBody(envelope.type, envelope.v, envelope.body);
    say(`Recorded as entry ${number}: ${reading.ok ? sayEvent(reading.event, after) : envelope.type}.`);
  }
  const before = new Set(openFindings(folded.findings).map(({ sentence }) => sentence));
  for (const { sentence, remedy } of openFindings(after.findings)) {
    if (!before.has(sentence)) say(`Finding: ${sentence} ${remedy}`);
  }
  if (envelopes.some(({ type, body }) => type === 'stem-felled' && body.came === 'hung-up'))
    await warnOfHungUp();
}

async function warnOfHungUp(): Promise<void> {
  const { hungUpCaution } = await import('./cautions.ts');
  say(paint.bold(hungUpCaution()));
}
