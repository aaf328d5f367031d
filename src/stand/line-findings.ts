// Findings about trees at the lines of a block: felled without the neighbour's word, or marked where the line is in doubt.
import { isUnresolved } from '../place/index.ts';
import { instantOf, type LogEntry } from './entry.ts';
import type { RaisedFinding } from './findings.ts';
import { type AtLine, callsForLooking, consentFor, linesOf, lineWords } from './lines.ts';
import { said } from './sentence.ts';
import type { Stand, Stem } from './state.ts';
import { locate } from './where.ts';

/** Judged by where stems and lines are now: a line that was surveyed since may have taken a doubt away. */
export function lineFindings(stand: Stand, entries: ReadonlyMap<string, LogEntry>): RaisedFinding[] {
  if (![...stand.blocks.values()].some(({ boundary }) => boundary !== undefined)) return [];
  const locator = locate(stand);
  const lines = linesOf(stand, locator);
  const found: RaisedFinding[] = [];
  for (const stem of stand.stems.values()) {
    if (stem.position === undefined || (stem.felling === undefined && stem.mark !== 'cut')) continue;
    // A stem of a block of whose lines nothing is known need not be placed.
    if (!lines.concerns(stem)) continue;
    const at = locator.stem(stem.id);
    if (isUnresolved(at)) continue;
    const { dbh, block, group } = stem;
    const line = lines.judge({ dbh, block, group, at });
    if (line === undefined || !callsForLooking(line)) continue;
    const finding = findingOf(stand, stem, line, entries);
    if (finding !== undefined) found.push(finding);
  }
  return found;
}

function findingOf(
  stand: Stand,
  stem: Stem,
  line: AtLine,
  entries: ReadonlyMap<string, LogEntry>,
): RaisedFinding | undefined {
  const consent = consentFor(stand, stem.id, line);
  const { felling } = stem;
  const agreed = consent === undefined ? undefined : instantOf(consent.at);
  if (agreed !== undefined && (felling === undefined || agreed <= instantOf(felling.at))) return undefined;
  const surely = line.answer !== 'doubtful';
  const code = felling !== undefined && surely ? 'line-tree-felled-without-consent' : 'doubtful-line-tree';
  const where = lineWords(stand, line);
  const how = howItStands(line);
  const says =
    felling === undefined
      ? said`${{ stem: stem.id }} is marked to be cut and ${how} ${where}.`
      : said`${{ stem: stem.id }} was felled; it ${how} ${where}, and nobody beyond it had agreed.`;
  const resting = [stem.markedBy, felling?.entry].filter((entry) => entry !== undefined);
  const last = entries.get(resting.at(-1) ?? '');
  return {
    code,
    entries: resting,
    about: { stem: stem.id, ...(stem.group === undefined ? {} : { group: stem.group }) },
    says,
    remedy:
      felling === undefined
        ? 'Do not cut it before the line is found on the ground or the neighbour has agreed ("neighbour consent noted").'
        : 'Talk to the neighbour, and write down what came of it in a note about the stem. If the line or the position was wrong, record it anew.',
    at: last?.happenedAt.at ?? '1970-01-01T00:00:00Z',
    recordedAt: last?.recordedAt ?? '1970-01-01T00:00:00Z',
    instant: last === undefined ? 0 : instantOf(last.happenedAt),
  };
}

/** How a stem stands to a line, before the words for the line. */
export function howItStands({ answer, inside }: Pick<AtLine, 'answer' | 'inside'>): string {
  const away = `${Math.abs(inside).toFixed(1)} m`;
  switch (answer) {
    case 'touched':
      return 'stands on';
    case 'outside':
      return `stands ${away} outside of`;
    case 'inside':
      return `stands ${away} inside of`;
    case 'doubtful':
      return `is doubtful (${away} ${inside < 0 ? 'outside' : 'inside'}) to`;
  }
}
