// Findings about stakes and stems that were measured from each other, so that nothing holds them to the ground.
import { circlesIn, locatedOf } from './anchors.ts';
import type { Finding } from './findings.ts';
import { stemLabel } from './labels.ts';
import type { Stand } from './state.ts';

export function circleFindings(stand: Stand): Finding[] {
  return circlesIn(stand).map((circle) => {
    const located = circle.flatMap((key) => locatedOf(stand, key) ?? []);
    const names = circle.map(({ is, id }) =>
      is === 'stake' ? `stake ${stand.stakes.get(id)?.label ?? 'unknown'}` : stemLabel(stand.stems.get(id)),
    );
    const stem = circle.find(({ is }) => is === 'stem')?.id;
    const at = located.map(({ when }) => when).reduce((one, other) => (later(one, other) ? one : other), '');
    return {
      code: 'offsets-in-a-circle',
      entries: located.map(({ entry }) => entry).sort(),
      about: stem === undefined ? {} : { stem },
      sentence:
        names.length === 1
          ? `${names[0]} was measured from itself, so nobody can tell where it is.`
          : `${names.join(', ')} were measured from each other in a circle, so nobody can tell where they are.`,
      remedy: 'Measure one of them from a stake, or give it a fix, and amend its position.',
      at,
    };
  });
}

function later(one: string, other: string): boolean {
  return Date.parse(one) > Date.parse(other);
}
