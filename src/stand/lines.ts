// Trees at the lines of a block: touched by the line, inside, outside or doubtful, with what is not known of both.
import { isLengthUnit, lengthIn } from '../measure/index.ts';
import {
  isUnresolved,
  type LineTree,
  lineTree,
  marginOf,
  nearSideOf,
  type PositionEntered,
  type Resolved,
} from '../place/index.ts';
import { boundaryOf } from './ground.ts';
import type { Block, Stand, Stem, Tallied } from './state.ts';
import { blockOfStem } from './stem-facts.ts';
import type { Locator } from './where.ts';

export type Evidence = Tallied<'boundary-evidence-noted'>['body']['evidence'];

/** How far a line may be from where it was drawn, by what was found of it: one standard error, metres. Common practice, no source. */
const LINE_ERRORS: Readonly<Record<Evidence, number>> = {
  surveyed: 0.1,
  'monument-found': 0.3,
  'old-fence': 1.5,
  assumed: 10,
};

/** What a block says of its whole boundary, as evidence. */
const fromBlock: Readonly<Record<string, Evidence>> = {
  surveyed: 'surveyed',
  monuments: 'monument-found',
  walked: 'old-fence',
  map: 'assumed',
  assumed: 'assumed',
};

/** A stem as it stands to the nearest line. */
export type AtLine = Readonly<{
  block: string;
  /** Counted from 1: line 1 runs from corner 1 to corner 2. */
  line: number;
  answer: LineTree;
  /** Distance of the stem's middle to the line, positive inside, metres. */
  inside: number;
  /** What it would have to be away to be sure, besides its radius, metres. */
  margin: number;
  evidence: Evidence;
  /** Nobody noted evidence for this line: all that is known is that it was drawn or assumed. */
  isOnlyDrawn: boolean;
}>;

/** What has to be known of a stem, as it is or as it is just being marked. */
export type StemAtLine = Pick<Stem, 'dbh' | 'block' | 'group'> & Readonly<{ at: Resolved }>;

export type Lines = Readonly<{
  /** Whether there is a line at all that a stem can be held against, wherever it stands. */
  concerns: (stem: Pick<StemAtLine, 'block' | 'group'>) => boolean;
  judge: (stem: StemAtLine) => AtLine | undefined;
}>;

/**
 * The lines of the blocks, ready for many stems. A line counts when somebody said how it is known, and no later entry
 * says that the land beyond is one's own.
 */
export function linesOf(stand: Stand, locator: Locator): Lines {
  const known = new Map<string, Judge>();
  for (const block of stand.blocks.values()) {
    const judge = judgeFor(block, stand, locator);
    if (judge !== undefined) known.set(block.id, judge);
  }
  return {
    concerns: (stem) => {
      const own = known.size === 0 ? undefined : blockOfStem(stem, stand);
      return own === undefined ? known.size > 0 : known.has(own);
    },
    judge: (stem) => {
      const own = blockOfStem(stem, stand);
      if (own !== undefined) return known.get(own)?.(stem);
      // Without a block, the one that it lies farthest inside of, or is nearest to.
      return [...known.values()]
        .flatMap((judge) => judge(stem) ?? [])
        .sort((one, other) => other.inside - one.inside)[0];
    },
  };
}

type Judge = (stem: StemAtLine) => AtLine | undefined;

function judgeFor(block: Block, stand: Stand, locator: Locator): Judge | undefined {
  const { boundary } = block;
  const evidence = boundary === undefined ? [] : evidenceOf(block, boundary, stand);
  if (boundary === undefined || !evidence.some((line) => line?.beyond === 'other-land')) return undefined;
  const outline = boundaryOf(block, locator);
  if (isUnresolved(outline)) return undefined;
  const nearSide = nearSideOf(outline.points, (side) => evidence[side]?.beyond === 'other-land');
  return (stem) => {
    const near = nearSide(stem.at.at);
    const line = near === undefined ? undefined : evidence[near.side];
    if (near === undefined || line === undefined) return undefined;
    const corners = [near.side, (near.side + 1) % boundary.length].map(
      (corner) => outline.errors[corner] ?? 0,
    );
    const errors = [stem.at.standardError, Math.max(...corners), line.standardError];
    return {
      block: block.id,
      line: near.side + 1,
      answer: lineTree(near.inside, radiusOf(stem), errors),
      inside: near.inside,
      margin: marginOf(errors),
      evidence: line.evidence,
      isOnlyDrawn: line.isOnlyDrawn,
    };
  };
}

type LineEvidence = Readonly<{
  evidence: Evidence;
  beyond: 'other-land' | 'own-land';
  standardError: number;
  isOnlyDrawn: boolean;
}>;

/** For each line, what was said of it last: of itself, of a corner of it, or of the whole boundary. */
function evidenceOf(
  block: Block,
  boundary: readonly PositionEntered[],
  { evidence }: Stand,
): (LineEvidence | undefined)[] {
  const stated = block.boundaryFrom === undefined ? undefined : fromBlock[block.boundaryFrom];
  const first: LineEvidence | undefined =
    stated === undefined
      ? undefined
      : {
          evidence: stated,
          beyond: 'other-land',
          standardError: LINE_ERRORS[stated],
          isOnlyDrawn: stated === 'assumed',
        };
  const lines = boundary.map(() => first);
  const corners = new Map<number, LineEvidence>();
  for (const { body } of evidence) {
    if (body.block !== block.id) continue;
    const error = body.standardError;
    const said: LineEvidence = {
      evidence: body.evidence,
      beyond: body.beyond ?? 'other-land',
      isOnlyDrawn: false,
      standardError:
        error === undefined || !isLengthUnit(error.unit)
          ? LINE_ERRORS[body.evidence]
          : lengthIn(Number(error.value), error.unit, 'm'),
    };
    if (body.corner !== undefined) corners.set(body.corner - 1, said);
    for (const line of linesSpokenOf(body, boundary.length)) lines[line] = said;
  }
  return lines.map((line, position) => {
    const ends = [corners.get(position), corners.get((position + 1) % boundary.length)];
    const worse = ends.reduce((one, other) =>
      one === undefined || other === undefined || one.standardError > other.standardError ? one : other,
    );
    return ends.includes(undefined) ? line : worse;
  });
}

/** One line, or all of them. A corner is the end of two: when both ends of a line are known, so is the line. */
function linesSpokenOf(
  { line, corner }: Tallied<'boundary-evidence-noted'>['body'],
  count: number,
): number[] {
  if (corner !== undefined) return [];
  if (line !== undefined) return line <= count ? [line - 1] : [];
  return Array.from({ length: count }, (_, position) => position);
}

/** Radius at breast height, metres; undefined where no DBH was taken. */
function radiusOf({ dbh }: StemAtLine): number | undefined {
  if (dbh === undefined || !isLengthUnit(dbh.unit)) return undefined;
  return lengthIn(Number(dbh.value), dbh.unit, 'm') / 2;
}

/** Whether a neighbour agreed to a stem before some moment: to itself, or to all stems at its line. */
export function consentFor(
  stand: Stand,
  stem: string,
  { block, line }: Pick<AtLine, 'block' | 'line'>,
): Tallied<'neighbour-consent-noted'> | undefined {
  return stand.consents.find(({ body }) =>
    body.stems === undefined
      ? body.block === block && (body.line === undefined || body.line === line)
      : body.stems.includes(stem),
  );
}

/** "at line 2 of North cove" */
export function lineWords(stand: Stand, { block, line }: Pick<AtLine, 'block' | 'line'>): string {
  return `line ${line} of ${stand.blocks.get(block)?.name ?? 'its block'}`;
}

/**
 * Whether a stem to be cut calls for somebody to look for the line: it may stand on it or beyond it. Of a line that is
 * only drawn on a map or assumed nearly every stem of a small block would be doubtful; there it must be touched or
 * outside, and `figures lines` shows the doubtful ones.
 */
export function callsForLooking({ answer, isOnlyDrawn }: AtLine): boolean {
  return answer !== 'inside' && !(answer === 'doubtful' && isOnlyDrawn);
}
