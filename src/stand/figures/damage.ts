// How many of the trees that were to stay were hurt: all of them, and group by group.
import {
  type DamageShare,
  damageByGroup,
  isAreaUnit,
  type LeaveTree,
  type WoundArea,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { groupLabel } from '../labels.ts';
import type { Damage, Stand, Stem } from '../state.ts';
import { blockOfStem } from '../stem-facts.ts';
import { dbhOf } from './dbh.ts';
import { entriesOf } from './traced.ts';

export type DamageAsked = Readonly<{
  /** Id of a block; all leave trees if left out. */
  block?: string;
  /** From which size on a wound is large; 100 in² if left out. */
  limit?: WoundArea;
}>;

export type DamageFigures = Readonly<{
  all: TracedShare;
  groups: readonly Readonly<{ group: string; label: string; share: TracedShare }>[];
  remarks: readonly string[];
}>;
type TracedShare = DamageShare & Readonly<{ restsOn: readonly string[] }>;

/** The share of leave trees with recorded damage, by number and by basal area. */
export function damageFigures({ stand }: Folded, { block, limit }: DamageAsked = {}): DamageFigures {
  const damages = damagesByStem(stand);
  const stems = [...stand.stems.values()].filter(
    (stem) => stem.mark === 'leave' && (block === undefined || blockOfStem(stem, stand) === block),
  );
  const trees = stems.map((stem) => leaveTree(stem, damages.get(stem.id) ?? []));
  const { all, groups } = damageByGroup(trees, limit);
  // A stem knows of damage that was noted after it came in, so some entries would stand there twice.
  const restsOn = (those: readonly Stem[]) => [
    ...new Set(entriesOf([...those, ...those.flatMap(({ id }) => damages.get(id) ?? [])])()),
  ];
  return {
    all: { ...all, restsOn: restsOn(stems) },
    groups: [...groups].map(([id, share]) => ({
      group: id,
      label: groupLabel(stand.groups.get(id)),
      share: { ...share, restsOn: restsOn(stems.filter(({ group }) => group === id)) },
    })),
    remarks: [
      'A leave tree counts as damaged when damage to it is recorded. Trees that nobody looked at count as unhurt.',
      'Only stems that were recorded to stay are counted; the log is no census of the others.',
    ],
  };
}

function damagesByStem(stand: Stand): Map<string, Damage[]> {
  const found = new Map<string, Damage[]>();
  for (const damage of stand.damages.values()) {
    const { to, stem } = damage.body;
    if (to !== 'leave-tree' || stem === undefined) continue;
    const others = found.get(stem);
    if (others) others.push(damage);
    else found.set(stem, [damage]);
  }
  return found;
}

function leaveTree(stem: Stem, damages: readonly Damage[]): LeaveTree {
  const dbh = dbhOf(stem);
  return {
    ...(dbh === undefined || dbh.inches < 0 ? {} : { dbh: { value: dbh.inches, unit: 'in' } }),
    ...(stem.group === undefined ? {} : { group: stem.group }),
    damages: damages.map(({ body: { woundArea } }) => {
      const value = Number(woundArea?.value);
      return woundArea !== undefined && isAreaUnit(woundArea.unit) && value >= 0
        ? { area: { value, unit: woundArea.unit } }
        : {};
    }),
  };
}
