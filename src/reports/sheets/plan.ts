// A felling plan in words and tables, and the worksheet of one stem. Every number is a consequence of what was entered; the
// cautions stand before it wherever it is shown.
import type { FellingPlan, PlannedFall, Risk, SawSide } from '../../felling/index.ts';
import { lengthIn, type System } from '../../measure/index.ts';
import { head, number, rounded, type Sheet, type SheetTable, wordy } from './model.ts';

export function planSheet(plan: FellingPlan, system: System): Sheet {
  const { group, falls, aside, totals, levels, exact, limit, changed, unplaced } = plan;
  return {
    title: `Felling plan for ${group.label}`,
    lead: [
      ...(aside.length === 0
        ? []
        : [
            'Set aside, still standing, because no aim was found acceptable. Nothing below counts on felling them:',
          ]),
      ...aside.flatMap(({ label, because, remedies }) => [`- ${label}: ${because} ${remedies.join(' ')}`]),
      falls.length === 0
        ? 'No stem of the group can be planned as entered.'
        : `By this model the whole plan goes without a hang-up with a chance of ${percent(totals.without)}. Expected hang-ups ${rounded(totals.hangUps, 2)}, expected loss ${rounded(totals.loss, 2)} saplings' worth. Plan again after every fall.`,
    ],
    tables: falls.length === 0 ? [] : [sequence(falls, system), ...falls.map((fall) => risksTable(fall))],
    remarks: [
      ...(falls.length === 0
        ? []
        : [
            exact
              ? 'No order of these stems and aims does better by this model.'
              : `Searched, not proved: another order may have up to ${percent(levels.hangUps.gap)} fewer expected hang-ups, and up to ${percent(levels.loss.gap)} less loss.`,
          ]),
      `A fall with a chance of hanging up over ${percent(limit)} is never planned.`,
      ...changed.map(
        ({ name, value, usual }) => `Assumption changed: ${name} is ${value}, usually ${usual}.`,
      ),
      ...guessed(falls),
      ...unplaced.map(({ label, why }) => `Not in the plan, because it has no place: ${label}. ${why}`),
      'What nobody entered is not in it: brush, vines, wires, dead limbs overhead, people.',
    ],
  };
}

function sequence(falls: readonly PlannedFall[], system: System): SheetTable {
  return {
    caption: 'Order of felling',
    columns: [
      head('Stem'),
      number('Aim, true'),
      number('Compass'),
      wordy('Toward'),
      number('Left'),
      number('Right'),
      wordy('How'),
      number('Hangs up'),
      number('Loss'),
    ],
    rows: falls.map(({ label, step, magnetic, explanation, aim }) => [
      label,
      `${rounded(step.aim, 1)}°`,
      magnetic === undefined ? '–' : `${rounded(magnetic, 1)}°`,
      towards(explanation.landmark, system),
      `${rounded(explanation.band.left.degrees, 0)}°`,
      `${rounded(explanation.band.right.degrees, 0)}°`,
      howWords(aim, system),
      percent(step.hangUp),
      rounded(step.loss, 2),
    ]),
  };
}

/** What to look at along an aim, in words; a dash where nothing was found. */
export function towards(landmark: PlannedFall['explanation']['landmark'], system: System): string {
  if (landmark === undefined) return '–';
  const { kind, label, distance, off } = landmark;
  const what = kind === 'stump' && !label.startsWith('the stump') ? `the stump of ${label}` : label;
  const beside =
    Math.abs(off) < 1 ? '' : `, ${rounded(Math.abs(off), 0)}° ${off > 0 ? 'right' : 'left'} of it`;
  return `${what}, ${far(distance, system)}${beside}`;
}

function howWords({ method, wedges, pull, afterwards }: PlannedFall['aim'], system: System): string {
  const how =
    wedges !== undefined
      ? `wedges, lift ${thin(wedges.lift, system)}`
      : pull !== undefined
        ? `winch, trained people only`
        : method;
  return [how, ...afterwards].join('; ');
}

function risksTable({ label, explanation, step, waysOut }: PlannedFall): SheetTable {
  const { risks, band } = explanation;
  const reach = [band.left, band.right].map(({ degrees, reaches }, side) =>
    reaches === undefined
      ? []
      : [[`${rounded(degrees, 0)}° to the ${side === 0 ? 'left' : 'right'}`, `reaches ${reaches.label}`, '']],
  );
  const close = step.otherAims.filter((other) => other.close).slice(0, 2);
  return {
    caption: `${label}: what is at risk`,
    columns: [head('What'), wordy('How'), number('Chance')],
    rows: [
      ...risks.slice(0, 8).map((risk) => [riskName(risk), riskHow(risk), percent(risk.chance)]),
      ...reach.flat(),
      ...close.map(({ aim, hangUp, more }) => [
        `aim ${rounded(aim, 1)}° instead`,
        `only just decided: ${signed(more.hangUps)} hang-ups, ${signed(more.loss)} loss`,
        percent(hangUp),
      ]),
      ...waysOut.routes.map(({ side, azimuth, blockedBy, steep }) => [
        `way out ${side}, ${rounded(azimuth, 0)}° true`,
        blockedBy.length === 0
          ? `nothing entered stands in it${steep ? ', but it climbs' : ''}`
          : `blocked by ${blockedBy.map((one) => one.label).join(', ')}`,
        '',
      ]),
      ...(waysOut.noneClear === undefined ? [] : [['Stop', waysOut.noneClear, '']]),
    ],
  };
}

function riskName({ what, label }: Risk): string {
  return what === 'hang-up' || what === 'broken over' ? label : `${what} ${label}`.replace(/^(\w+) \1/, '$1');
}

const risksHow: Readonly<Record<Risk['how'], string>> = {
  bole: 'struck by the bole',
  crown: 'under the crown',
  holds: 'holds it: hangs up',
  reaches: 'reached',
  share: 'share that is lost',
};

function riskHow({ what, how }: Risk): string {
  return what === 'broken over' ? 'broken over, falls with it' : risksHow[how];
}

/** What nobody measured, stem by stem: measuring it may change the plan. */
function guessed(falls: readonly PlannedFall[]): string[] {
  const fields = new Map<string, string[]>();
  for (const { label, filledBy } of falls)
    for (const { field } of filledBy) fields.set(field, [...(fields.get(field) ?? []), label]);
  return [...fields].map(([field, labels]) => `Assumed, not measured: ${field} of ${labels.join(', ')}.`);
}

/** The worksheet of one stem for the aim that it has in the plan. */
export function worksheetSheet(fall: PlannedFall, sides: readonly SawSide[], system: System): Sheet {
  const { label, step, magnetic, worksheet, aim } = fall;
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

/** Never 0 and never 100: the model knows only what was entered. */
function percent(share: number): string {
  if (share < 0.005) return 'under 1 %';
  return share > 0.995 ? 'over 99 %' : `${rounded(100 * share, 0)} %`;
}

function signed(value: number): string {
  return `${value < 0 ? '−' : '+'}${rounded(Math.abs(value), 2)}`;
}

function far(metres: number, system: System): string {
  return system === 'metric' ? `${rounded(metres, 1)} m` : `${rounded(lengthIn(metres, 'm', 'ft'), 0)} ft`;
}

function thin(metres: number, system: System): string {
  return system === 'metric'
    ? `${rounded(lengthIn(metres, 'm', 'cm'), 0)} cm`
    : `${rounded(lengthIn(metres, 'm', 'in'), 1)} in`;
}
