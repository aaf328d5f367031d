// Volume of standing trees, and a butt log with rot in it.
import {
  type Figure,
  isNotEnough,
  lengthIn,
  type NotEnough,
  ruleName,
  ruleUnit,
} from '../../measure/index.ts';
import {
  type ButtFigures,
  type ButtWays,
  columnNames,
  counted,
  type VolumeFigures,
  type VolumeSum,
} from '../../stand/index.ts';
import {
  feet,
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
  const unit = unitWords(ruleUnit(rule));
  const decimals = rule === 'cubic-metres' ? 2 : 0;
  const method = total.before.computed?.method;
  return {
    title: `Volume of standing trees ${ruleUnit(rule) === 'bf' ? 'by' : 'in'} ${ruleName(rule)}`,
    lead: [
      ...(method === undefined ? [] : [`Method: ${method}.`]),
      ...(heights === null ? [] : [heightSentence(heights, rule === 'cubic-metres')]),
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
            ...columnNames.map((name) => sumWords(columns[name], decimals)),
          ]),
          ['All', 'all', 'all', ...columnNames.map((name) => sumWords(total[name], decimals))],
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

function sumWords({ volume, computed, computedStems, stems }: VolumeSum, decimals: number): string {
  if (stems === 0) return '0';
  if (!isNotEnough(volume)) return shown(volume, decimals);
  return computed === null ? '–' : `${rounded(computed.value, decimals)} (${computedStems} of ${stems})`;
}

function heightSentence(heights: NonNullable<VolumeFigures['heights']>, metric: boolean): string {
  if (isNotEnough(heights)) return `Heights that were not measured: ${missingWords(heights)}.`;
  const { form, trees, rootMeanSquareError, dbhFrom, dbhTo } = heights;
  const across = (inches: number) => (metric ? rounded(lengthIn(inches, 'in', 'cm'), 1) : String(inches));
  const along = (of: number) =>
    metric ? `${rounded(lengthIn(of, 'ft', 'm'), 1)} m` : `${rounded(of, 1)} ft`;
  const formula = metric ? `${form} in feet and inches` : form;
  return `Heights that were not measured are by ${formula}, fitted to ${trees} trees of ${across(dbhFrom)} to ${across(dbhTo)} ${metric ? 'cm' : 'in'}, root mean square error ${along(rootMeanSquareError)}.`;
}

export function buttSheet(label: string, { choices, length, shell }: ButtFigures): Sheet {
  const title = `The butt log of ${label}`;
  // Where nobody looked at the stump, one reason holds for both and is said once.
  if (isNotEnough(choices) && isNotEnough(shell) && choices.notEnough === shell.notEnough)
    return { title, lead: [missingSentence(choices)], tables: [], remarks: [] };
  const remarks = isNotEnough(shell)
    ? [`Sound shell: ${missingWords(shell)}.`]
    : [
        `Sound shell: thickness over radius ${shown(shell.thicknessOverRadius, 2)}; ${percent(shell.hollowShare)} of the section is not sound, ${percent(shell.strengthLeft)} of the bending strength is left. ${shell.remark}`,
      ];
  if (isNotEnough(choices)) return { title, lead: [missingSentence(choices)], tables: [], remarks };
  const { gross, withCull, jumpButted } = choices;
  const row = (what: string, { net, lost, money }: typeof withCull) => [
    what,
    rounded(net.value, 0),
    rounded(lost.value, 0),
    isNotEnough(money) ? '–' : `${rounded(money.value, 2)} ${money.unit}`,
  ];
  return {
    title,
    lead: [
      `Sound, as a log of ${isNotEnough(length) ? '–' : feet(length.value)} ft, it would scale ${rounded(gross.value, 0)} ${unitWords(gross.unit)} by ${ruleName(gross.rule)}.`,
      withoutButt(jumpButted),
    ],
    tables: [
      {
        caption: `${ruleName(gross.rule)}, ${unitWords(gross.unit)}`,
        columns: [head('Way'), number('Left'), number('Lost'), number('Money')],
        rows: [row('the log with its cull', withCull), row('jump-butted', jumpButted)],
      },
    ],
    remarks: [
      ...remarks,
      ...withoutMoney(withCull.money, jumpButted.money),
      `Method: ${withCull.net.method}.`,
      `Source: ${withCull.net.source}.`,
      'Which way is right depends on the buyer.',
    ],
  };
}

/** Why there is no money, said once for both ways. */
function withoutMoney(...money: readonly (Figure | NotEnough)[]): string[] {
  return [...new Set(money.flatMap((one) => (isNotEnough(one) ? [`Money: ${missingWords(one)}.`] : [])))];
}

function percent(answer: Figure | NotEnough): string {
  return isNotEnough(answer) ? '–' : `${rounded(100 * answer.value, 0)} %`;
}

function withoutButt({ cutOff, length }: ButtWays['jumpButted']): string {
  if (cutOff.value === 0) return 'No rot goes up the butt, so nothing is cut off for it.';
  if (length.value === 0) return 'Without its rotten butt no log is left.';
  return `Without its rotten butt, ${feet(cutOff.value)} ft, a log of ${feet(length.value)} ft is left.`;
}
