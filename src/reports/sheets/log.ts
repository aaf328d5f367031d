// One log scaled, with what its defects take.
import { isNotEnough } from '../../measure/index.ts';
import { counted, type LogFigures } from '../../stand/index.ts';
import { feet, head, missingSentence, number, rounded, type Sheet, shown, unitWords } from './model.ts';

export function logSheet({ way, scaled, gross, defects, deducted, net }: LogFigures): Sheet {
  const title = `A log by ${way}`;
  if (isNotEnough(gross)) return { title, lead: [missingSentence(gross)], tables: [], remarks: [] };
  const unit = unitWords(gross.unit);
  const decimals = gross.unit === 'bf' ? 0 : gross.unit === 'm3' ? 3 : 1;
  const lead = [`${rounded(gross.value, decimals)} ${unit} gross.`];
  if (defects.length > 0)
    lead.push(
      isNotEnough(deducted) || isNotEnough(net)
        ? 'What is left is not known, because one of the defects lacks something.'
        : `Defects take ${rounded(deducted.value, decimals)} ${unit}, ${rounded(net.value, decimals)} ${unit} are left.`,
    );
  return {
    title,
    lead,
    tables: [
      ...(scaled === null
        ? []
        : [
            {
              caption: `Scaled as ${counted(scaled.segments.length, 'log')}, ${feet(scaled.length)} ft in all, from the small end`,
              columns: [head('Part'), number('Diameter, in'), number('Length, ft')],
              rows: scaled.segments.map(({ diameter, length }, at) => [
                String(at + 1),
                rounded(diameter, 0),
                feet(length),
              ]),
            },
          ]),
      ...(defects.length === 0
        ? []
        : [
            {
              caption: 'Defects, each as if it were the only one',
              columns: [head('Defect'), number(`Takes, ${unit}`)],
              rows: defects.map(({ text, takes }) => [text, shown(takes, decimals)]),
            },
          ]),
    ],
    remarks: [
      `Method: ${(isNotEnough(net) ? gross : net).method}.`,
      `Source: ${(isNotEnough(net) ? gross : net).source}.`,
      ...defects.flatMap(({ text, takes }) => (isNotEnough(takes) ? [`${text}: ${takes.notEnough}.`] : [])),
      ...(defects.length < 2
        ? []
        : ['Defects are added, as in separate parts of the log. Where two overlap, measure them as one.']),
      ...(scaled === null ? [] : [`The next log with an exact half inch goes ${scaled.next}.`]),
    ],
  };
}
