// The worksheet of one stem: notch, hinge, back cut, wedges, saplings at the stump, ways out; and when it says stop.
import type { PlannedFall } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import { head, rounded, type Sheet, type SheetTable, wordy } from './model.ts';
import { risksTable } from './plan.ts';
import { far, percent, thin } from './plan-words.ts';

/** The worksheet of one stem for the aim that it has in the plan. */
export function worksheetSheet(fall: PlannedFall, system: System): Sheet {
  const { label, step, magnetic, worksheet, aim, sides } = fall;
  const { shell, objections, stop } = worksheet;
  const compass = magnetic === undefined ? '' : ` (${rounded(magnetic, 1)}° by the compass)`;
  return {
    title: `Worksheet for ${label}, aimed at ${rounded(step.aim, 1)}° true${compass}`,
    lead: [...stop, ...(fall.waysOut.noneClear === undefined ? [] : [`Stop. ${fall.waysOut.noneClear}`])],
    tables: [
      {
        caption: 'Notch, hinge and cut',
        columns: [head('What'), wordy('How much')],
        rows: [...notchRows(worksheet, system), ...wedgeRows(aim, system), ...shellRows(worksheet)],
      },
      ...sidesTable(sides),
      risksTable(fall),
    ],
    remarks: [
      ...objections,
      ...(shell === undefined
        ? []
        : [`Sound shell: ${shell.remark.charAt(0).toLowerCase()}${shell.remark.slice(1)}`]),
      'Sound wood is as it was entered. Rot that nobody saw may be there all the same: look at the chips of the bore, and stop when they turn dark, wet or soft.',
      'Numbers to hold against the tree. They are no instruction, and nothing here says that a hinge will hold.',
    ],
  };
}

type Worksheet = PlannedFall['worksheet'];

function notchRows(worksheet: Worksheet, system: System): string[][] {
  const { notch, hinge, bore, cutAbove, stumpHeight, diameter, method } = worksheet;
  const small = (metres: number) => thin(metres, system);
  const deeper = notch.depth - notch.usual > 1e-6;
  return [
    ['Diameter at the cut', small(diameter)],
    [
      'Notch',
      `${method === 'humboldt' ? 'Humboldt' : method}, ${notch.opening}° open, ${small(notch.depth)} deep; never beyond ${small(notch.most)}`,
    ],
    ...(deeper
      ? [
          [
            'Why so deep',
            `usual is ${small(notch.usual)}; it takes ${small(notch.depth)} to put the hinge into sound wood${hinge.sound < hinge.wanted * 0.995 ? ', as far as the limit lets it' : ''}`,
          ],
        ]
      : []),
    [
      'Hinge',
      `${small(hinge.thickness)} thick, ${small(hinge.wanted)} long wanted; ${soundWords(worksheet, small)}`,
    ],
    ['Back cut or bore', `${small(cutAbove)} above the corner of the notch`],
    [
      'Bore cut',
      bore === undefined
        ? 'no room behind the hinge for a strap'
        : `${small(bore.through)} through behind the hinge, a strap of ${small(bore.strap)} left at the back${bore.strapIsSound ? '' : ', and the strap is not in sound wood'}; the strap is cut last`,
    ],
    ['Stump height', `${small(stumpHeight)}, assumed`],
  ];
}

function wedgeRows({ wedges, pull }: PlannedFall['aim'], system: System): string[][] {
  const small = (metres: number) => thin(metres, system);
  return [
    ...(wedges === undefined
      ? []
      : [
          [
            'Wedges',
            `back lean ${far(wedges.backLean, system)} at its upper error: lift ${small(wedges.lift)}, with the saw cut ${small(wedges.thickness)} of wedge; reckoned up to ${far(wedges.allowed, system)} of back lean`,
          ],
        ]),
    ...(pull === undefined
      ? []
      : [
          [
            'Winch',
            `${percent(pull)} of the weight of the stem, pulled level at its top, only balances the back lean; trained people only`,
          ],
        ]),
  ];
}

function shellRows({ shell }: Worksheet): string[][] {
  if (shell === undefined) return [];
  const { thicknessOverRadius, strengthLeft } = shell;
  const says = `thickness ${rounded(thicknessOverRadius, 2)} of the radius, ${percent(strengthLeft)} of the bending strength left`;
  return [['Sound shell', says]];
}

function sidesTable(sides: PlannedFall['sides']): SheetTable[] {
  if (sides.length === 0) return [];
  const said = (against: readonly string[]) => against.join(' ') || 'nothing that was entered';
  return [
    {
      caption: 'Saplings at the stump, as seen along the aim',
      columns: [
        head('Sapling'),
        wordy('Lies'),
        wordy('Bore from'),
        wordy('Against the left'),
        wordy('Against the right'),
        wordy('How'),
      ],
      rows: sides.map((side) => [
        side.label,
        `${side.lies}, on the ${side.on}`,
        side.from ?? 'no side helps',
        said(side.against.left),
        said(side.against.right),
        side.note,
      ]),
    },
  ];
}

/** A stop with a hinge that is sound as entered comes of rot or a seam that nobody measured. */
function soundWords({ hinge, stop }: Worksheet, small: (metres: number) => string): string {
  if (hinge.sound < hinge.wanted * 0.995)
    return `only ${small(hinge.sound)} of it (${percent(hinge.sound / hinge.wanted)}) is sound wood`;
  return stop.length > 0 ? 'nobody knows how much of it is sound wood' : 'all of it in sound wood as entered';
}
