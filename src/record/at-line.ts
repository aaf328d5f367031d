// A stem that is marked to be cut near a line is asked about then, not after the cut.
import type { Event, QuantityEntered } from '../events/index.ts';
import { isUnresolved, type Resolved, type Unresolved } from '../place/index.ts';
import {
  callsForLooking,
  consentFor,
  howItStands,
  linesOf,
  lineWords,
  locate,
  type Stand,
} from '../stand/index.ts';
import { anyway, type Question } from './question.ts';

/** Asks when a stem to be cut is not surely inside of the lines of its block, and nobody beyond them agreed. */
export function aboutLine(event: Event, stand: Stand, when: string): Question[] {
  if (event.type !== 'stem-marked' && event.type !== 'mark-changed') return [];
  const { stem: id, mark, group, block } = event.body;
  if (mark !== 'cut') return [];
  const locator = locate(stand);
  const before = stand.stems.get(id);
  const marked: {
    position?: Resolved | Unresolved;
    dbh?: QuantityEntered | undefined;
    tag?: string | undefined;
  } =
    event.type === 'stem-marked'
      ? {
          dbh: event.body.dbh,
          tag: event.body.tag,
          ...(event.body.position && {
            position: locator.resolve({ entered: event.body.position, when, entry: '' }),
          }),
        }
      : {};
  const at = marked.position ?? locator.stem(id);
  if (isUnresolved(at)) return [];
  const line = linesOf(stand, locator).judge({
    at,
    dbh: marked.dbh ?? before?.dbh,
    group: group ?? before?.group,
    block: block ?? before?.block,
  });
  if (line === undefined || !callsForLooking(line) || consentFor(stand, id, line) !== undefined) return [];
  const called = marked.tag ?? before?.tag ?? 'This stem';
  return [
    {
      code: 'line-tree',
      sentence: `${called} ${howItStands(line)} ${lineWords(stand, line)}: the line is ${evidenceWords[line.evidence]}, and nearer than ${line.margin.toFixed(1)} m nobody can be sure. Find the line on the ground, or get the neighbour's word, before it is cut.`,
      choices: [anyway('mark it all the same')],
    },
  ];
}

const evidenceWords = {
  surveyed: 'surveyed',
  'monument-found': 'known by a monument',
  'old-fence': 'known by an old fence',
  assumed: 'only assumed',
} as const;
