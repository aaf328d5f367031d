/** Trees at the lines of a block: by evidence, by consent, and on land of one's own. */
import { describe, expect, test } from 'vitest';
import type { EventType, JsonObject } from '../../src/events/index.ts';
import { isUnresolved } from '../../src/place/index.ts';
import { type AtLine, fold, linesOf, locate } from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';

const block = uuid(0xb1);
const stem = uuid(0x51);
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
const grid = (east: number, north: number, accuracy = '0.1') => ({
  how: 'grid',
  crs: 'EPSG:32617',
  easting: String(620_000 + east),
  northing: String(3_950_000 + north),
  accuracy: metres(accuracy),
});
/** Line 1 is the west one, 2 north, 3 east, 4 south. */
const boundary = [grid(0, 0), grid(0, 100), grid(100, 100), grid(100, 0)];

type Line = readonly [EventType, JsonObject];
const laidOut = (more: JsonObject = {}): Line => [
  'block-laid-out',
  { block, name: 'North cove', boundary, ...more },
];
const evidence = (more: JsonObject): Line => ['boundary-evidence-noted', { block, ...more }];
const marked = (east: number, north: number, more: JsonObject = {}): Line => [
  'stem-marked',
  { stem, mark: 'cut', tag: 'B7', block, dbh: metres('0.6'), position: grid(east, north), ...more },
];
const felled: Line = ['stem-felled', { stem, came: 'down' }];

function foldOf(...lines: readonly Line[]) {
  const write = pen();
  return fold(lines.map(([type, body]) => write(type, body)));
}

function atLine(...lines: readonly Line[]): AtLine | undefined {
  const { stand } = foldOf(...lines);
  const locator = locate(stand);
  const at = locator.stem(stem);
  const found = stand.stems.get(stem);
  if (isUnresolved(at) || found === undefined) throw new Error('the stem has no place');
  return linesOf(stand, locator).judge({ ...found, at });
}

function codes(...lines: readonly Line[]): string[] {
  return foldOf(...lines).findings.map(({ code }) => code);
}

describe('a stem at a line', () => {
  const surveyed = laidOut({ boundaryFrom: 'surveyed' });
  const exact = evidence({ evidence: 'surveyed', standardError: metres('0.01') });

  test.each([
    [5, 50, 'inside', 1],
    [-5, 50, 'outside', 1],
    [0.05, 50, 'doubtful', 1],
    [50, 96, 'inside', 2],
    [103, 20, 'outside', 3],
    [20, -0.5, 'doubtful', 4],
  ])('%d m east and %d m north of the corner is %s, nearest to line %i', (east, north, answer, line) => {
    expect(atLine(surveyed, marked(east, north))).toMatchObject({ answer, line });
  });

  test('is touched when the line surely goes through it', () => {
    // Radius 0.3 m; position and corners to 2 cm, line to 1 cm: 0.1 + 2 × 0.03 m is within the stem.
    const corners = boundary.map((corner) => ({ ...corner, accuracy: metres('0.02') }));
    const position = grid(0.1, 50, '0.02');
    expect(atLine(laidOut({ boundary: corners }), exact, marked(0.1, 50, { position }))).toMatchObject({
      answer: 'touched',
      line: 1,
    });
  });

  test('is doubtful for a long way where the line is only assumed: 2 × √(10² + 0.1² + 0.1²) m', () => {
    const assumed = laidOut({ boundaryFrom: 'assumed' });
    expect(atLine(assumed, marked(19, 50))).toMatchObject({ answer: 'doubtful' });
    expect(atLine(assumed, marked(21, 50))).toMatchObject({ answer: 'inside' });
    expect(atLine(assumed, marked(19, 50))?.margin).toBeCloseTo(2 * Math.sqrt(100.02), 6);
  });

  test('is not judged where nobody said how the boundary is known', () => {
    expect(atLine(laidOut(), marked(-5, 50))).toBeUndefined();
  });

  test('the latest evidence of a line holds, for that line alone', () => {
    const log = [laidOut({ boundaryFrom: 'assumed' }), evidence({ line: 1, evidence: 'surveyed' })];
    expect(atLine(...log, marked(5, 50))).toMatchObject({ answer: 'inside', evidence: 'surveyed' });
    expect(atLine(...log, marked(50, 95))).toMatchObject({ answer: 'doubtful', evidence: 'assumed' });
  });

  test('a line between two corners with monuments is known by the worse of them', () => {
    const log = [
      laidOut({ boundaryFrom: 'assumed' }),
      evidence({ corner: 1, evidence: 'surveyed' }),
      evidence({ corner: 2, evidence: 'monument-found' }),
    ];
    expect(atLine(...log, marked(5, 50))).toMatchObject({ answer: 'inside', evidence: 'monument-found' });
  });

  test('a line with own land beyond it is none to keep away from', () => {
    const log = [surveyed, evidence({ line: 1, evidence: 'surveyed', beyond: 'own-land' })];
    expect(atLine(...log, marked(0.05, 50))).toMatchObject({ answer: 'inside' });
  });
});

describe('findings about line trees', () => {
  const surveyed = laidOut({ boundaryFrom: 'surveyed' });
  const consent = (more: JsonObject): Line => ['neighbour-consent-noted', { agreed: 'may be cut', ...more }];

  test('none where the neighbour had agreed to the stem, or to the line', () => {
    expect(codes(surveyed, marked(-3, 50), consent({ stems: [stem] }), felled)).toEqual([]);
    expect(codes(surveyed, marked(-3, 50), consent({ block, line: 1 }), felled)).toEqual([]);
    expect(codes(surveyed, marked(-3, 50), consent({ block }), felled)).toEqual([]);
  });

  test('consent for another line, or after the cut, is none', () => {
    const without = 'line-tree-felled-without-consent';
    expect(codes(surveyed, marked(-3, 50), consent({ block, line: 2 }), felled)).toEqual([without]);
    expect(codes(surveyed, marked(-3, 50), felled, consent({ stems: [stem] }))).toEqual([without]);
  });

  test('a doubtful one stays doubtful when it is felled', () => {
    expect(codes(surveyed, marked(0.1, 50), felled)).toEqual(['doubtful-line-tree']);
  });

  test('leave trees may stand where they will', () => {
    expect(codes(surveyed, marked(-3, 50, { mark: 'leave' }))).toEqual([]);
  });

  test('a note about the stem settles it', () => {
    const note: Line = ['note-written', { text: 'line walked with Joan Weaver, her tree, paid for', stem }];
    const [finding] = foldOf(surveyed, marked(-3, 50), felled, note).findings;
    expect(finding?.settled).toBeDefined();
  });
});
