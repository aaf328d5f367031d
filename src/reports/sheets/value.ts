// What standing volumes are worth by a price list.
import { isNotEnough, ruleName } from '../../measure/index.ts';
import type { ValueFigures } from '../../stand/index.ts';
import { head, missingSentence, number, rounded, type Sheet, shown, unitWords, wordy } from './model.ts';
import { columnTitles } from './stand.ts';

const titles = {
  before: 'Value of what was there',
  removed: 'Value of what was removed',
  lost: 'Value of what was lost otherwise',
  left: 'Value of what is left',
} as const;

export function valueSheet({ column, list, lines, priced, total, remarks }: ValueFigures): Sheet {
  const title = titles[column];
  if (isNotEnough(list)) return { title, lead: [missingSentence(list)], tables: [], remarks };
  const { date, buyerClass, unit, currency, rule } = list;
  const without = lines.flatMap(({ species, value }) =>
    isNotEnough(value)
      ? [`No value for ${species}: ${value.notEnough.replace(/^not enough data: /, '').replace(/\.$/, '')}.`]
      : [],
  );
  return {
    title,
    lead: [
      `By the price list of ${date} (${buyerClass}), ${currency} per ${unit}, ${ruleName(rule)}.`,
      isNotEnough(total)
        ? [
            missingSentence(total),
            ...(priced === null
              ? []
              : [`What has a price comes to ${rounded(priced.value, 2)} ${priced.unit} (${priced.method}).`]),
          ].join(' ')
        : `In all ${rounded(total.value, 2)} ${total.unit}.`,
    ],
    tables: [
      {
        caption: `${ruleName(rule)}, stems ${columnTitles[column]}`,
        columns: [head('Species'), wordy('Product'), wordy('Grade'), number('Volume'), number(currency)],
        rows: lines.map(({ species, product, grade, volume, value }) => [
          species,
          product ?? 'not recorded',
          grade ?? 'not recorded',
          isNotEnough(volume) ? '–' : `${rounded(volume.value, 0)} ${unitWords(volume.unit)}`,
          shown(value, 2),
        ]),
      },
    ],
    remarks: [...without, ...remarks],
  };
}
