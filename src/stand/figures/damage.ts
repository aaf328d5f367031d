// How many of the trees that were to stay were hurt: all of them, group by group, and along the lays.
import {
  type DamageShare,
  damageByGroup,
  damageShare,
  isNotEnough,
  type LeaveTree,
  type NotEnough,
  type WoundArea,
  woundLimit,
  woundMargin,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { groupLabel, stemLabel } from '../labels.ts';
import type { Damage, Stand, Stem } from '../state.ts';
import { blockOfStem } from '../stem-facts.ts';
import { alongLays, type LaysAsked, nearLays } from './damage-lays.ts';
import { dbhOf } from './dbh.ts';
import { type ShareFigure, shareFigure } from './estimated.ts';
import { asArea } from './length.ts';
import { type Answer, entriesOf, type TracedFigure, traced } from './traced.ts';

export type DamageAsked = Readonly<{
  /** Id of a block; all leave trees if left out. */
  block?: string;
  /** From which size on a wound is large; 100 in² if left out. */
  limit?: WoundArea;
  /** How far from a lay a leave tree counts as near it; see `nearLays`. */
  within?: LaysAsked;
}>;

/** Counts of trees and wounds, and the shares that follow from them. */
export type DamageRow = Readonly<
  Pick<DamageShare, 'trees' | 'damaged' | 'wounds' | 'treesAtLeast' | 'limit' | 'source'> & {
    byNumber: ShareFigure | NotEnough;
    byBasalArea: Answer;
    restsOn: readonly string[];
  }
>;

/** A wound that was measured, and how much it is over the limit; below 0 it is under it. */
export type WoundRow = Readonly<{
  label: string;
  area: TracedFigure;
  margin: TracedFigure;
  atLeast: boolean;
}>;

export type DamageFigures = Readonly<{
  all: DamageRow;
  groups: readonly Readonly<{ group: string; label: string; share: DamageRow }>[];
  wounds: readonly WoundRow[];
  /** Leave trees near the lays against the others; what is missing where no lay or no leave tree has a place. */
  lays: DamageLays | NotEnough;
  remarks: readonly string[];
}>;

export type DamageLays = Readonly<{
  within: LaysAsked;
  /** Lays with a place; the stems that were felled and have none. */
  lays: number;
  unplaced: readonly string[];
  near: DamageRow;
  others: DamageRow;
  /** Leave trees whose place is not known: neither near nor not. */
  without: number;
  /** Damages to leave trees by felled stems, for each stem that was felled. */
  perStem: TracedFigure | NotEnough;
}>;

/** The share of leave trees with recorded damage, by number and by basal area. */
export function damageFigures({ stand }: Folded, asked: DamageAsked = {}): DamageFigures {
  const { block, limit = woundLimit, within = nearLays } = asked;
  const isIn = (stem: Stem) => block === undefined || blockOfStem(stem, stand) === block;
  const damages = damagesByStem(stand);
  const stems = [...stand.stems.values()].filter(isIn);
  const leave = stems.filter(({ mark }) => mark === 'leave');
  const treeOf = (stem: Stem) => leaveTree(stem, damages.get(stem.id) ?? []);
  const { all, groups } = damageByGroup(leave.map(treeOf), limit);
  // A stem knows of damage that was noted after it came in, so some entries would stand there twice.
  const restsOn = (those: readonly Stem[]) => [
    ...new Set(entriesOf([...those, ...those.flatMap(({ id }) => damages.get(id) ?? [])])()),
  ];
  const rowOf = (those: readonly Stem[]) => rowFrom(damageShare(those.map(treeOf), limit), restsOn(those));
  return {
    all: rowFrom(all, restsOn(leave)),
    groups: [...groups].map(([id, share]) => ({
      group: id,
      label: groupLabel(stand.groups.get(id)),
      share: rowFrom(share, restsOn(leave.filter(({ group }) => group === id))),
    })),
    wounds: leave.flatMap((stem) => woundsOf(stem, damages.get(stem.id) ?? [], limit)),
    lays: alongLays(stand, { stems, leave, damages, within, rowOf }),
    remarks: [
      'A leave tree counts as damaged when damage to it is recorded. Trees that nobody looked at count as unhurt.',
      'Only stems that were recorded to stay are counted; the log is no census of the others.',
    ],
  };
}

function rowFrom(share: DamageShare, restsOn: readonly string[]): DamageRow {
  const { byNumber, byBasalArea, ...counts } = share;
  const { source } = share;
  return {
    ...counts,
    byNumber: shareFigure(byNumber, {
      method: 'damaged of all leave trees; exact interval',
      source,
      restsOn,
    }),
    byBasalArea: isNotEnough(byBasalArea)
      ? byBasalArea
      : traced(
          {
            value: byBasalArea,
            unit: 'share',
            method: 'basal area of damaged trees of that of all leave trees',
            source,
          },
          () => restsOn,
        ),
    restsOn,
  };
}

function woundsOf(stem: Stem, damages: readonly Damage[], limit: WoundArea): WoundRow[] {
  return damages.flatMap(({ body, entries }) => {
    const area = asArea(body.woundArea);
    if (area === undefined || area.value < 0) return [];
    const { margin, atLeast } = woundMargin(area, limit);
    const origin = { source: 'the log', restsOn: entries };
    return [
      {
        label: stemLabel(stem),
        area: { ...area, method: 'as measured', ...origin },
        margin: { value: margin, unit: limit.unit, method: 'area of the wound minus the limit', ...origin },
        atLeast,
      },
    ];
  });
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
      const area = asArea(woundArea);
      return area !== undefined && area.value >= 0 ? { area } : {};
    }),
  };
}
