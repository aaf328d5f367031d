// What positions hang on: the stakes and stems that something was measured from, and circles among them.
import type { PositionEntered } from '../place/index.ts';
import type { Located, Stand } from './state.ts';

/** A stake or a stem. */
export type Anchor = Readonly<{ is: 'stake' | 'stem'; id: string }>;

/** The stakes and stems that a position was measured from. */
export function anchorsOf(entered: PositionEntered | undefined): readonly Anchor[] {
  switch (entered?.how) {
    case 'offset':
      return [anchorOf(entered.from)];
    case 'distances':
      return entered.taped.map(({ from }) => anchorOf(from));
    default:
      return [];
  }
}

function anchorOf(from: { stake: string } | { stem: string }): Anchor {
  return 'stake' in from ? { is: 'stake', id: from.stake } : { is: 'stem', id: from.stem };
}

/** The stakes, stems and blocks (for their own axes) that positions hang on, directly or through others. */
export function hangOn(
  stand: Stand,
  positions: Iterable<PositionEntered | undefined>,
): Readonly<Record<'stake' | 'stem' | 'block', ReadonlySet<string>>> {
  const found = { stake: new Set<string>(), stem: new Set<string>(), block: new Set<string>() };
  const waiting = [...positions];
  for (let entered = waiting.pop(); entered !== undefined || waiting.length > 0; entered = waiting.pop()) {
    const under = anchorsOf(entered);
    if (entered?.how === 'local' && !found.block.has(entered.block)) {
      found.block.add(entered.block);
      waiting.push(stand.blocks.get(entered.block)?.axes?.origin);
    }
    for (const anchor of under) {
      if (found[anchor.is].has(anchor.id)) continue;
      found[anchor.is].add(anchor.id);
      waiting.push(locatedOf(stand, anchor)?.entered);
    }
  }
  return found;
}

export function anchorName({ is, id }: Anchor): string {
  return `${is} ${id}`;
}

/** The position of a stake or a stem, as far as one was recorded. */
export function locatedOf(stand: Stand, { is, id }: Anchor): Located | undefined {
  return (is === 'stake' ? stand.stakes : stand.stems).get(id)?.position;
}

/** Stakes and stems that were measured from each other, so that nothing holds them: one list for each circle. */
export function circlesIn(stand: Stand): Anchor[][] {
  const circles: Anchor[][] = [];
  const done = new Set<string>();
  const look = (first: Anchor): void => {
    // Chains may be long, so they are not followed by recursion: a path, and how many anchors of each were followed.
    const path: { key: Anchor; next: number }[] = [{ key: first, next: 0 }];
    const onPath = new Map([[anchorName(first), 0]]);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const anchor = anchorsOf(locatedOf(stand, top.key)?.entered)[top.next];
      top.next += 1;
      if (anchor === undefined) {
        path.pop();
        onPath.delete(anchorName(top.key));
        done.add(anchorName(top.key));
        continue;
      }
      const name = anchorName(anchor);
      const start = onPath.get(name);
      if (start !== undefined) circles.push(path.slice(start).map(({ key }) => key));
      if (start !== undefined || done.has(name)) continue;
      onPath.set(name, path.length);
      path.push({ key: anchor, next: 0 });
    }
  };
  // Only what is measured and measured from can be in a circle; most stems are measured and nothing more.
  for (const anchor of measuredFrom(stand))
    if (!done.has(anchorName(anchor)) && anchorsOf(locatedOf(stand, anchor)?.entered).length > 0)
      look(anchor);
  return circles;
}

/** Everything that something else was measured from, stakes first, each in the order in which it came into the log. */
function measuredFrom(stand: Stand): Anchor[] {
  const from = { stake: new Set<string>(), stem: new Set<string>() };
  const note = ({ position }: { position?: Located | undefined }): void => {
    const entered = position?.entered;
    if (entered?.how === 'offset' || entered?.how === 'distances')
      for (const { is, id } of anchorsOf(entered)) from[is].add(id);
  };
  for (const stake of stand.stakes.values()) note(stake);
  for (const stem of stand.stems.values()) note(stem);
  const inOrder = (is: Anchor['is'], ids: Iterable<string>): Anchor[] => {
    const found: Anchor[] = [];
    for (const id of ids) if (from[is].has(id)) found.push({ is, id });
    return found;
  };
  return [...inOrder('stake', stand.stakes.keys()), ...inOrder('stem', stand.stems.keys())];
}
