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
  const each = (is: Anchor['is'], things: Stand['stakes'] | Stand['stems']) => {
    for (const [id, { position }] of things)
      if (!done.has(anchorName({ is, id })) && anchorsOf(position?.entered).length > 0) look({ is, id });
  };
  each('stake', stand.stakes);
  each('stem', stand.stems);
  return circles;
}
