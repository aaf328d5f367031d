// Damage to leave trees.
import { isNotEnough, type NotEnough } from '../../measure/index.ts';
import type { DamageFigures } from '../../stand/index.ts';
import { head, missingSentence, number, rounded, type Sheet, unitWords } from './model.ts';

export function damageSheet({ all, groups, remarks }: DamageFigures): Sheet {
  const limit = `${all.limit.value} ${unitWords(all.limit.unit)}`;
  const row = (label: string, share: DamageFigures['all']) => [
    label,
    String(share.trees),
    String(share.damaged),
    percent(isNotEnough(share.byNumber) ? share.byNumber : share.byNumber.share),
    percent(share.byBasalArea),
    String(share.treesAtLeast),
    ...[share.wounds.atLeast, share.wounds.under, share.wounds.unmeasured].map(String),
  ];
  const missing = [all.byNumber, all.byBasalArea].filter((answer) => isNotEnough(answer));
  return {
    title: 'Damage to leave trees',
    lead: missing.map(missingSentence),
    tables: [
      {
        caption: `Leave trees with damage; a wound counts as large from ${limit} on`,
        columns: [
          head('Group'),
          number('Leave trees'),
          number('Damaged'),
          number('% of trees'),
          number('% of basal area'),
          number('Trees with a large wound'),
          number('Large wounds'),
          number('Smaller'),
          number('Not measured'),
        ],
        rows: [...groups.map(({ label, share }) => row(label, share)), row('All', all)],
      },
    ],
    remarks: [...remarks, `Source of the ${all.source}.`],
  };
}

function percent(share: number | NotEnough): string {
  return typeof share === 'number' ? rounded(100 * share, 0) : '–';
}
