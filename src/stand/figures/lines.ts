// Trees at the lines of blocks: which are touched, outside or doubtful, with what is not known of both.
import { isUnresolved } from '../../place/index.ts';
import type { Folded } from '../fold.ts';
import { stemLabel } from '../labels.ts';
import { type AtLine, consentFor, linesOf, lineWords } from '../lines.ts';
import { blockOfStem } from '../stem-facts.ts';
import { locate } from '../where.ts';

export type LineRow = AtLine &
  Readonly<{
    stem: string;
    label: string;
    at: string;
    mark: 'cut' | 'leave' | null;
    felled: boolean;
    consent: boolean;
    restsOn: readonly string[];
  }>;

export type LineFigures = Readonly<{
  rows: readonly LineRow[];
  inside: number;
  /** Stems that no line was held against: without a place, or in a block of whose boundary nothing is said. */
  notJudged: number;
  remarks: readonly string[];
}>;

/** @param block id; all blocks if left out */
export function lineFigures({ stand }: Folded, block?: string): LineFigures {
  const locator = locate(stand);
  const lines = linesOf(stand, locator);
  const rows: LineRow[] = [];
  let [inside, notJudged] = [0, 0];
  for (const stem of stand.stems.values()) {
    if (block !== undefined && blockOfStem(stem, stand) !== block) continue;
    const at = locator.stem(stem.id);
    const line = isUnresolved(at) ? undefined : lines.judge({ ...stem, at });
    if (line === undefined) notJudged += 1;
    else if (line.answer === 'inside') inside += 1;
    else
      rows.push({
        ...line,
        stem: stem.id,
        label: stemLabel(stem),
        at: lineWords(stand, line),
        mark: stem.mark ?? null,
        felled: stem.felling !== undefined,
        consent: consentFor(stand, stem.id, line) !== undefined,
        restsOn: [...stem.entries],
      });
  }
  return {
    rows: rows.sort((one, other) => one.inside - other.inside),
    inside,
    notJudged,
    remarks: [
      'A stem is inside or outside when it is farther from the line than its radius and two standard errors of its position and of the line together.',
      'No line on a map is a line on the ground: find it there, and talk to the neighbour, before a tree near it is cut.',
    ],
  };
}
