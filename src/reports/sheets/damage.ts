// Damage to leave trees.
import { isNotEnough } from '../../measure/index.ts';
import { counted, type DamageFigures, type DamageLays, type DamageRow, nearLays } from '../../stand/index.ts';
import {
  head,
  missingSentence,
  missingWords,
  number,
  rounded,
  type Sheet,
  type SheetTable,
  shown,
  unitWords,
  wordy,
} from './model.ts';

export function damageSheet({ all, groups, wounds, lays, remarks }: DamageFigures): Sheet {
  const limit = `${all.limit.value} ${unitWords(all.limit.unit)}`;
  const missing = [all.byNumber, all.byBasalArea].filter((answer) => isNotEnough(answer));
  return {
    title: 'Damage to leave trees',
    lead: missing.map(missingSentence),
    tables: [
      sharesTable(`Leave trees with damage; a wound counts as large from ${limit} on`, 'Group', [
        ...groups.map(({ label, share }) => [label, share] as const),
        ['All', all],
      ]),
      ...(wounds.length === 0 ? [] : [woundsTable(wounds, limit)]),
      ...(isNotEnough(lays) ? [] : [laysTable(lays)]),
    ],
    remarks: [...laysRemarks(lays), ...remarks, `Source of the ${all.source}.`],
  };
}

function sharesTable(
  caption: string,
  first: string,
  rows: readonly (readonly [string, DamageRow])[],
): SheetTable {
  return {
    caption,
    columns: [
      head(first),
      number('Leave trees'),
      number('Damaged'),
      number('% of trees'),
      number('% of basal area'),
      number('Trees with a large wound'),
      number('Large wounds'),
      number('Smaller'),
      number('Not measured'),
    ],
    rows: rows.map(([label, share]) => [
      label,
      String(share.trees),
      String(share.damaged),
      percent(share.byNumber),
      percent(share.byBasalArea),
      String(share.treesAtLeast),
      ...[share.wounds.atLeast, share.wounds.under, share.wounds.unmeasured].map(String),
    ]),
  };
}

function woundsTable(wounds: DamageFigures['wounds'], limit: string): SheetTable {
  return {
    caption: `Measured wounds against ${limit}`,
    columns: [head('Leave tree'), number('Wound'), number('Over the limit by'), wordy('Counts as')],
    rows: wounds.map(({ label, area, margin, atLeast }) => [
      label,
      `${shown(area, 0)} ${unitWords(area.unit)}`,
      `${marginWords(margin.value)} ${unitWords(margin.unit)}`,
      atLeast ? 'large' : 'smaller',
    ]),
  };
}

/** So many decimals that a wound just under the limit is not shown as one at it. */
function marginWords(margin: number): string {
  const decimals = [0, 1, 2, 3].find((many) => margin === 0 || Math.abs(margin) >= 0.5 / 10 ** many) ?? 4;
  return `${margin > 0 ? '+' : ''}${rounded(margin, decimals)}`;
}

function laysTable({ within, lays, near, others }: DamageLays): SheetTable {
  const distance = distanceWords(within);
  return sharesTable(`Leave trees within ${distance} of ${counted(lays, 'lay')}`, 'Leave trees', [
    [`within ${distance}`, near],
    ['farther away', others],
  ]);
}

function laysRemarks(lays: DamageFigures['lays']): string[] {
  if (isNotEnough(lays)) return [`Damage along the lays: ${missingWords(lays)}.`];
  const { within, unplaced, without, perStem } = lays;
  return [
    ...(isNotEnough(perStem)
      ? []
      : [`Damages for each felled stem: ${shown(perStem, 2)} (${perStem.method}).`]),
    ...(unplaced.length === 0
      ? []
      : [`Without a lay that can be drawn, and left out: ${unplaced.join(', ')}.`]),
    ...(without === 0 ? [] : [`${counted(without, 'leave tree')} without a known place, in neither row.`]),
    `${distanceWords(within)} from the lay is ${isUsual(within) ? 'common practice, without a source' : 'the distance that was asked for'}; a crown may have reached farther.`,
  ];
}

function distanceWords({ value, unit }: DamageLays['within']): string {
  return `${value} ${unit}`;
}

function isUsual({ value, unit }: DamageLays['within']): boolean {
  return value === nearLays.value && unit === nearLays.unit;
}

function percent(share: DamageRow['byBasalArea']): string {
  return isNotEnough(share) ? '–' : rounded(100 * share.value, 0);
}
