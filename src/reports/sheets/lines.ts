// Trees at lines, strips along features, and hours of sun, as words and tables.
import type { System } from '../../measure/index.ts';
import { type BufferFigures, counted, type LineFigures, type SunFigures, words } from '../../stand/index.ts';
import { lengthsIn } from './lengths.ts';
import { head, number, rounded, type Sheet, wordy } from './model.ts';

export function linesSheet({ rows, inside, notJudged, remarks }: LineFigures, system: System): Sheet {
  const length = lengthsIn(system);
  const lead = [
    `${counted(inside, 'stem')} surely inside of their lines.`,
    ...(notJudged === 0
      ? []
      : [
          `${counted(notJudged, 'stem')} not judged: no place is recorded for them, or nobody said how the boundary is known.`,
        ]),
  ];
  const title = 'Trees at the lines';
  if (rows.length === 0) return { title, lead, tables: [], remarks };
  return {
    title,
    lead,
    tables: [
      {
        caption: 'Touched, outside or doubtful',
        columns: [
          head('Stem'),
          wordy('Line'),
          wordy('Answer'),
          number(`Inside, ${length.unit}`),
          number(`To be sure, ${length.unit}`),
          wordy('Line known by'),
          wordy('Mark'),
          wordy('Neighbour'),
        ],
        rows: rows.map((row) => [
          row.label,
          row.at,
          row.answer,
          length.of(row.inside, 1),
          length.of(row.margin, 1),
          words(row.evidence),
          row.felled ? 'felled' : (row.mark ?? 'none'),
          row.consent ? 'agreed' : 'not asked',
        ]),
      },
    ],
    remarks,
  };
}

export function buffersSheet({ asked, rows, nowhere, remarks }: BufferFigures, system: System): Sheet {
  const length = lengthsIn(system);
  const { base, perPercent = 0, above = 0 } = asked.rule;
  const grows =
    perPercent === 0
      ? ''
      : `, and ${length.of(perPercent, 1)} ${length.unit} more for each percent of slope above ${above} %`;
  const lead = [
    `Strips of ${length.of(base, 1)} ${length.unit}${grows}, measured ${asked.along === 'slope' ? 'along the slope' : 'level'}.`,
    ...(rows.length === 0 ? ['No such feature is mapped ("feature mapped").'] : []),
    ...rows.flatMap(({ label, missing }) => (missing === null ? [] : [about(label, missing)])),
    ...(nowhere === 0 ? [] : [`${counted(nowhere, 'stem')} without a place, not judged.`]),
  ];
  const judged = rows.filter(({ width }) => width !== null);
  const title = 'Strips along features';
  const within = judged.flatMap(({ label, stems }) => stems.map((stem) => ({ feature: label, ...stem })));
  if (judged.length === 0) return { title, lead, tables: [], remarks };
  return {
    title,
    lead,
    tables: [
      {
        caption: 'Features',
        columns: [
          head('Feature'),
          wordy('What'),
          number('Slope, %'),
          number(`Width, level, ${length.unit}`),
          number('Stems in'),
          number('Doubtful'),
          number('Out'),
        ],
        rows: judged.map(({ label, what, slope, width, stems, out }) => [
          label,
          words(what),
          slope === null ? '–' : rounded(slope, 0),
          length.of(width ?? 0, 1),
          String(stems.filter(({ answer }) => answer === 'in').length),
          String(stems.filter(({ answer }) => answer === 'doubtful').length),
          String(out),
        ]),
      },
      ...(within.length === 0
        ? []
        : [
            {
              caption: 'Stems in them',
              columns: [
                head('Stem'),
                wordy('Feature'),
                wordy('Answer'),
                number(`Away, ${length.unit}`),
                wordy('Mark'),
              ],
              rows: within.map(({ label, feature, answer, metres, felled, mark }) => [
                label,
                feature,
                answer,
                length.of(metres, 1),
                felled ? 'felled' : (mark ?? 'none'),
              ]),
            },
          ]),
    ],
    remarks,
  };
}

export function sunSheet(
  { label, missing, method, edgeHeight, days, rows, remarks }: SunFigures,
  system: System,
): Sheet {
  const length = lengthsIn(system);
  const title = `Hours of direct sun in ${label}`;
  if (missing !== null) return { title, lead: [missing], tables: [], remarks: [] };
  const told = rows.filter((row) => row.missing === null);
  return {
    title,
    lead: [
      `Opening by the ${method}, trees of ${length.of(edgeHeight ?? 0)} ${length.unit} round it.`,
      ...rows.flatMap((row) => (row.missing === null ? [] : [about(row.label, row.missing)])),
    ],
    tables: [
      {
        caption: 'Hours on a clear day, before and after the cut',
        columns: [
          head('Day'),
          ...told.flatMap((row) => [number(`${row.label}, before`), number(`${row.label}, after`)]),
        ],
        rows: days.map((day, position) => [
          day,
          ...told.flatMap(({ before, after }) => [
            rounded(before[position] ?? 0, 1),
            rounded(after[position] ?? 0, 1),
          ]),
        ]),
      },
    ],
    remarks,
  };
}

/** What is missing of one thing; some reasons are sentences of their own, others are none. */
function about(label: string, missing: string): string {
  return `${label}: ${missing.replace(/\.$/, '')}.`;
}
