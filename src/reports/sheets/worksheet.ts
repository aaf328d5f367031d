// The worksheet of one stem: notch, hinge, back cut, wedges, saplings at the stump, ways out; and when it says stop.
import type { PlannedFall } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import { head, rounded, type Sheet, wordy } from './model.ts';
import { risksTable } from './plan.ts';
import { far, percent, thin } from './plan-words.ts';

/** The worksheet of one stem for the aim that it has in the plan. */
export function worksheetSheet(fall: PlannedFall, system: System): Sheet {
  const { label, step, magnetic, worksheet, aim, sides } = fall;
  const { notch, hinge, bore, cutAbove, stumpHeight, diameter, shell, objections, stop } = worksheet;
  const small = (metres: number) => thin(metres, system);
  const rows: string[][] = [
    ['Diameter at the cut', small(diameter)],
    [
      'Notch',
      `${worksheet.method}, ${notch.opening}° open, ${small(notch.depth)} deep (never beyond ${small(notch.most)})`,
    ],
    [
      'Hinge',
      `${small(hinge.thickness)} thick, ${small(hinge.sound)} of sound wood of ${small(hinge.wanted)} wanted`,
    ],
    ['Back cut or bore', `${small(cutAbove)} above the corner of the notch`],
    ...(bore === undefined
      ? [['Bore cut', 'no room behind the hinge for a strap']]
      : [
          [
            'Bore cut',
            `${small(bore.through)} through, strap of ${small(bore.strap)} left at the back${bore.strapIsSound ? '' : ', and the strap is not in sound wood'}`,
          ],
        ]),
    ['Stump height', small(stumpHeight)],
    ...(aim.wedges === undefined
      ? []
      : [
          [
            'Wedges',
            `back lean ${far(aim.wedges.backLean, system)}: lift ${small(aim.wedges.lift)}, with the kerf ${small(aim.wedges.thickness)}; reckoned up to ${far(aim.wedges.allowed, system)} of back lean`,
          ],
        ]),
    ...(shell === undefined
      ? []
      : [
          [
            'Sound shell',
            `t/R ${rounded(shell.thicknessOverRadius, 2)}, ${percent(shell.strengthLeft)} of the bending strength left`,
          ],
        ]),
  ];
  return {
    title: `Worksheet for ${label}, aimed at ${rounded(step.aim, 1)}° true${magnetic === undefined ? '' : ` (${rounded(magnetic, 1)}° by the compass)`}`,
    lead: [...stop, ...(fall.waysOut.noneClear === undefined ? [] : [fall.waysOut.noneClear])],
    tables: [
      { caption: 'Notch, hinge and cut', columns: [head('What'), wordy('How much')], rows },
      ...(sides.length === 0
        ? []
        : [
            {
              caption: 'Saplings at the stump, as seen along the aim',
              columns: [head('Sapling'), wordy('Lies'), wordy('Bore from'), wordy('Against that side')],
              rows: sides.map((side) => [
                side.label,
                `${side.lies}, on the ${side.on}`,
                side.from === undefined ? `no side helps: ${side.note}` : `${side.from}: ${side.note}`,
                side.against.join(' ') || 'nothing that was entered',
              ]),
            },
          ]),
      risksTable(fall),
    ],
    remarks: [
      ...objections,
      ...(shell === undefined ? [] : [shell.remark]),
      'Sound wood is as it was entered. Rot that nobody saw may be there all the same: look at the chips of the bore.',
    ],
  };
}
