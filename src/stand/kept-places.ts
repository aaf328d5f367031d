// Places that were worked out once and still hold: folding on after one more entry works out what that entry moved, not
// ten thousand stems again. Nothing is kept beyond the entries themselves, and nothing that would change an answer.
import {
  type AnchorReference,
  type PositionContext,
  type PositionEntered,
  resolvePosition,
} from '../place/index.ts';
import type { Stand } from './state.ts';

type Answer = ReturnType<typeof resolvePosition>;
type Kept = Readonly<{ asked: readonly Question[]; when: string; settings: string; answer: Answer }>;
/** What was asked on the way to an answer, and what the log said then. */
type Question = Readonly<{ ask: 'anchor' | 'nameOf'; of: AnchorReference; said: unknown }>;

/** Of each stand that is folded on, and no longer than it is. */
const keptOf = new WeakMap<Stand, Map<PositionEntered, Kept>>();

/** What was worked out for a stand so far. */
export function keptPlaces(stand: Stand): Map<PositionEntered, Kept> {
  const known = keptOf.get(stand);
  if (known !== undefined) return known;
  const kept = new Map<PositionEntered, Kept>();
  keptOf.set(stand, kept);
  return kept;
}

/**
 * As `resolvePosition`, but an answer that was given before is given again, the very same object, as long as everything
 * that it rests on is the same: when, settings, where and what its stakes and stems are.
 * @param settings all that the context has of the logbook, as one text
 */
export function resolveOnce(
  kept: Map<PositionEntered, Kept>,
  entered: PositionEntered,
  context: PositionContext,
  settings: string,
): Answer {
  const known = kept.get(entered);
  if (
    known?.when === context.when &&
    known.settings === settings &&
    known.asked.every(({ ask, of, said }) => context[ask](of) === said)
  )
    return known.answer;
  const asked: Question[] = [];
  let hasAxes = false;
  const answer = resolvePosition(entered, {
    ...context,
    anchor: (of) => {
      const said = context.anchor(of);
      asked.push({ ask: 'anchor', of, said });
      return said;
    },
    nameOf: (of) => {
      const said = context.nameOf(of);
      asked.push({ ask: 'nameOf', of, said });
      return said;
    },
    // Axes come as a new object each time, so that nothing which hangs on them is kept.
    axes: (block) => {
      hasAxes = true;
      return context.axes(block);
    },
  });
  if (!hasAxes) kept.set(entered, { asked, when: context.when, settings, answer });
  return answer;
}
