// Volume of standing trees, and a butt log with rot in it.
import { isNotEnough, ruleName } from '../../measure/index.ts';
import {
  type ButtFigures,
  columnNames,
  counted,
  type VolumeFigures,
  type VolumeSum,
} from '../../stand/index.ts';
import {
  head,
  missingSentence,
  missingWords,
  number,
  rounded,
  type Sheet,
  shown,
  unitWords,
  wordy,
} from './model.ts';
import { columnTitles } from './stand.ts';

export function volumeSheet({ rule, heights, rows, total, without, remarks }: VolumeFigures): Sheet {
  const unit = rule === 'cubic-feet' ? 'ft³' : 'bf';
  const method = total.before.computed?.method;
  return {
    title: `Volume of standing trees by ${ruleName(rule)}`,
    lead: [
      ...(method === undefined ? [] : [`Method: ${method}.`]),
      ...(heights === null ? [] : [heightSentence(heights)]),
      'Where a volume could not be computed for every stem, it says for how many of how many.',
    ],
    tables: [
      {
        caption: `${ruleName(rule)}, ${unit}`,
        columns: [
          head('Species'),
          wordy('Product'),
          wordy('Grade'),
          ...columnNames.map((name) => number(columnTitles[name])),
        ],
        rows: [
          ...rows.map(({ species, product, grade, columns }) => [
            species,
            product ?? 'not recorded',
            grade ?? 'not recorded',
            ...columnNames.map((name) => sumWords(columns[name])),
          ]),
          ['All', 'all', 'all', ...columnNames.map((name) => sumWords(total[name]))],
        ],
      },
    ],
    remarks: [...withoutSentences(without), ...remarks],
  };
}

/** One sentence for each reason, with the stems it holds for. */
function withoutSentences(without: VolumeFigures['without']): string[] {
  const labels = new Map<string, string[]>();
  for (const { label, why } of without) labels.set(why, [...(labels.get(why) ?? []), label]);
  return [...labels].map(([why, those]) => {
    const more = those.length > 12 ? ` and ${those.length - 12} more` : '';
    return `No volume for ${counted(those.length, 'stem')}: ${why} (${those.slice(0, 12).join(', ')}${more}).`;
  });
}

function sumWords({ volume, computed, computedStems, stems }: VolumeSum): string {
  if (stems === 0) return '0';
  if (!isNotEnough(volume)) return shown(volume, 0);
  return computed === null ? '–' : `${rounded(computed.value, 0)} (${computedStems} of ${stems})`;
}

function heightSentence(heights: NonNullable<VolumeFigures['heights']>): string {
  if (isNotEnough(heights)) return `Heights that were not measured: ${missingWords(heights)}.`;
  const { form, trees, rootMeanSquareError, dbhFrom, dbhTo } = heights;
  return `Heights that were not measured are by ${form}, fitted to ${trees} trees of ${dbhFrom} to ${dbhTo} in, root mean square error ${rounded(rootMeanSquareError, 1)} ft.`;
}

export function buttSheet(label: string, { choices, shell }: ButtFigures): Sheet {
  const title = `The butt log of ${label}`;
  // Where nobody looked at the stump, one reason holds for both and is said once.
  if (isNotEnough(choices) && isNotEnough(shell) && choices.notEnough === shell.notEnough)
    return { title, lead: [missingSentence(choices)], tables: [], remarks: [] };
  const remarks = isNotEnough(shell)
    ? [`Sound shell: ${missingWords(shell)}.`]
    : [
        `Sound shell: thickness over radius ${rounded(shell.thicknessOverRadius, 2)}, ${rounded(100 * shell.hollowShare, 0)} % of the section, ${rounded(100 * shell.strengthLeft, 0)} % of the bending strength left. ${shell.remark}`,
      ];
  if (isNotEnough(choices)) return { title, lead: [missingSentence(choices)], tables: [], remarks };
  const { gross, withCull, jumpButted } = choices;
  const row = (what: string, { net, lost, money }: typeof withCull) => [
    what,
    rounded(net.value, 0),
    rounded(lost.value, 0),
    isNotEnough(money) ? 'no price' : `${rounded(money.value, 2)} ${money.unit}`,
  ];
  return {
    title,
    lead: [
      `Sound, it would scale ${rounded(gross.value, 0)} ${unitWords(gross.unit)} by ${ruleName(gross.rule)}.`,
      withoutButt(jumpButted),
    ],
    tables: [
      {
        caption: `${ruleName(gross.rule)}, ${unitWords(gross.unit)}; ${withCull.net.method}`,
        columns: [head('Way'), number('Left'), number('Lost'), number('Money')],
        rows: [row('the log with its cull', withCull), row('jump-butted', jumpButted)],
      },
    ],
    remarks: [...remarks, 'Which way is right depends on the buyer.'],
  };
}

function withoutButt({ cutOff, length }: Readonly<{ cutOff: number; length: number }>): string {
  if (cutOff === 0) return 'No rot goes up the butt, so nothing is cut off for it.';
  if (length === 0) return 'Without its rotten butt no log is left.';
  return `Without its rotten butt, ${rounded(cutOff, 0)} ft, a log of ${rounded(length, 0)} ft is left.`;
}
