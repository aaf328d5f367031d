// Reading on in the logbook, from where this phone has read to, page by page.
import { text } from '../../text/index.ts';
import type { Core } from '../core.ts';
import { ask, type Json } from './asking.ts';
import { type Line, readLine, takeLines } from './lines.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import { isWhole } from './receipts.ts';

const pageLines = 500;

type Page = Readonly<{ size: number; lines: readonly Line[]; next: number | null }>;

/**
 * Takes in everything that the logbook has and this phone has not read. `rewritten`: what stands there is no
 * continuation of what was read before; the logbook is an older copy of itself.
 */
export async function readOn(
  core: Core,
  token: string | undefined,
  alive: () => Promise<void>,
): Promise<Outcome | 'rewritten'> {
  for (;;) {
    await alive();
    const readTo = readSoFar(core);
    // The last one that was read comes once more: by it is seen whether this goes on.
    const from = Math.max(0, readTo - 1);
    const answer = await ask(core.outside, token, {
      method: 'GET',
      path: `exchange?from=${from}&limit=${pageLines}`,
    });
    if (answer.is !== 'answered') return outcomeOf(answer);
    const page = readPage(answer.json, from);
    if (typeof page === 'string') return { is: 'no-answer', why: page };
    if (page.size < readTo) return 'rewritten';
    const known = readTo > from ? core.held.at(from) : undefined;
    if (known !== undefined && page.lines[0]?.id !== known) return 'rewritten';
    const end = from + page.lines.length;
    if (end > readTo || page.lines.some(({ id }) => core.held.entry(id)?.position === undefined))
      await takeLines(core, page.lines, { readTo: Math.max(readTo, end) });
    if (page.next === null || page.lines.length === 0) return { is: 'idle' };
  }
}

/** How far was read, counting what came back with receipts. */
function readSoFar({ values, held }: Core): number {
  let readTo = values.get('readTo') ?? 0;
  while (held.at(readTo) !== undefined) readTo += 1;
  return readTo;
}

/** The page, or in a sentence why it is none. */
function readPage(json: Json, from: number): Page | string {
  const { size, lines, next } = json;
  if (!isWhole(size) || !Array.isArray(lines) || !(next === null || isWhole(next)))
    return text.engine.otherAnswer;
  const read: Line[] = [];
  for (const [index, value] of lines.entries()) {
    const reading = readLine(value);
    if (!reading.ok) return text.engine.notALine(from + index, reading.issue.remedy);
    if (reading.line.line.receipt?.position !== from + index) return text.engine.otherAnswer;
    read.push(reading.line);
  }
  return { size, lines: read, next };
}
