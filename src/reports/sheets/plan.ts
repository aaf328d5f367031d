// A felling plan in words and tables. Every number is a consequence of what was entered; the cautions stand before it wherever it
// is shown.
import type { FellingPlan, PlannedFall, Risk } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import { head, number, rounded, type Sheet, type SheetTable, wordy } from './model.ts';
import { afterRemarks, afterTables } from './plan-after.ts';
import { changedRemarks, type Told } from './plan-changed.ts';
import { measureSentences } from './plan-measure.ts';
import { called, costWords, howWords, named, percent, stopsBefore, sum, towards } from './plan-words.ts';

/** @param told how entries and people behind changed assumptions are told of */
export function planSheet(plan: FellingPlan, system: System, told?: Told): Sheet {
  const { group, falls, aside, totals, levels, exact, limit, unplaced } = plan;
  return {
    title: `Felling plan for ${group.label}`,
    lead: [
      ...(aside.length === 0
        ? []
        : [
            'Set aside, still standing, because no aim was found acceptable. Nothing below counts on felling them:',
          ]),
      ...aside.map(
        ({ label, because, remedies }) =>
          `- ${[because.startsWith(label) ? because : `${label}: ${because}`, ...remedies].join(' ')}`,
      ),
      falls.length === 0
        ? 'No stem of the group can be planned as entered.'
        : `By this model ${falls.length === 1 ? 'the one stem comes' : `all ${falls.length} stems come`} down without a hang-up with a chance of ${percent(totals.without)}. Expected hang-ups: ${sum(totals.hangUps)}. Expected loss: ${sum(totals.loss)} saplings' worth. Plan again after every fall.`,
      ...stopsBefore(falls).map((stop) => `- ${stop}`),
    ],
    tables:
      falls.length === 0
        ? []
        : [
            sequence(falls, system),
            ...falls.flatMap((fall) => [risksTable(fall), ...insteadTable(fall, plan)]),
            ...afterTables(plan, system),
          ],
    remarks: [
      ...(falls.length === 0
        ? []
        : [
            exact
              ? 'No order of these stems and aims does better by this model.'
              : `Searched, not proved: another order may have up to ${percent(levels.hangUps.gap)} fewer expected hang-ups, and up to ${percent(levels.loss.gap)} less loss.`,
          ]),
      ...measureSentences(plan, system),
      ...onlyJust(falls),
      ...afterRemarks(plan),
      `A fall with a chance of hanging up over ${percent(limit)} is never planned.`,
      ...changedRemarks(plan, system, told),
      ...guessed(falls),
      ...unplaced.map(({ label, why }) => `Not in the plan, because it has no place: ${label}. ${why}`),
      'What nobody entered is not in it: brush, vines, wires, dead limbs overhead, people.',
    ],
  };
}

function sequence(falls: readonly PlannedFall[], system: System): SheetTable {
  return {
    caption: 'Order of felling. Free: how far off the aim until the bole reaches something else',
    columns: [
      head('Stem'),
      number('Aim, true'),
      number('Compass'),
      wordy('Toward'),
      number('Free left'),
      number('Free right'),
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
      sum(step.loss),
    ]),
  };
}

/** What one fall puts at risk, by chance; how far it may be off; the ways out. */
export function risksTable({ label, explanation, waysOut }: PlannedFall): SheetTable {
  const { risks, band } = explanation;
  const reach = [band.left, band.right].map(({ degrees, reaches }, side) =>
    reaches === undefined
      ? []
      : [
          [
            `${rounded(degrees, 0)}° off to the ${side === 0 ? 'left' : 'right'}`,
            `it reaches ${named(reaches.kind, reaches.label)}`,
            '',
          ],
        ],
  );
  return {
    caption: `${label}: what is at risk`,
    columns: [head('What'), wordy('How'), number('Chance')],
    rows: [
      ...(risks.length === 0 ? [['nothing that was entered', 'every chance is under 1 in 1,000', '']] : []),
      ...risks.slice(0, 8).map((risk) => [riskName(risk), riskHow(risk), percent(risk.chance)]),
      ...reach.flat(),
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
  return what === 'hang-up' || what === 'broken over' ? `stem ${label}` : called(what, label);
}

const risksHow: Readonly<Record<Risk['how'], string>> = {
  bole: 'struck by the bole',
  crown: 'under the crown',
  holds: 'holds it: hangs up',
  reaches: 'reached',
  share: 'share that is lost',
};

function riskHow({ what, how }: Risk): string {
  if (what === 'leave tree') return how === 'bole' ? 'struck by the bole' : 'its crown scraped';
  return what === 'broken over' ? 'broken over, falls with it' : risksHow[how];
}

/** What else could be done at this place of the order, and what that would cost the whole plan. */
function insteadTable({ label, step }: PlannedFall, { falls }: FellingPlan): SheetTable[] {
  const close = (is: boolean) => (is ? ' (only just decided)' : '');
  const aims = step.otherAims.map((one) => [
    `aim ${rounded(one.aim, 1)}°`,
    `${costWords(one.more)}${close(one.close)}`,
    percent(one.hangUp),
  ]);
  const others = [...step.otherStems]
    .sort((a, b) => a.more.hangUps - b.more.hangUps || a.more.loss - b.more.loss)
    .slice(0, falls.length > 8 ? 2 : 3)
    .map((one) => [`fell ${one.id} first`, `${costWords(one.more)}${close(one.close)}`, '']);
  const rows = [...aims, ...others];
  return rows.length === 0
    ? []
    : [
        {
          caption: `${label}: instead`,
          columns: [head('Instead'), wordy('What it would add to the whole plan'), number('Hangs up')],
          rows,
        },
      ];
}

/** What another look, or a better measurement, could turn. */
function onlyJust(falls: readonly PlannedFall[]): string[] {
  const aims = falls
    .filter(({ step }) => step.otherAims.some(({ close }) => close))
    .map(({ label }) => label);
  const turns = falls.flatMap(({ label, step }) => {
    const [other] = step.otherStems.filter(({ close }) => close);
    return other === undefined ? [] : [`${label} before ${other.id}`];
  });
  const decided = [...(aims.length === 0 ? [] : [`the aim of ${aims.join(', ')}`]), ...turns];
  return decided.length === 0 ? [] : [`Only just decided: ${decided.join('; ')}.`];
}

const NOT_MEASURED: Readonly<Record<PlannedFall['filledBy'][number]['field'], string>> = {
  'crown base': 'where the crown begins',
  'crown radius': 'crown radius',
  lean: 'lean',
  'lean error': 'how exactly the lean was measured',
  'height error': 'height (it comes from the curve)',
};

/** What nobody measured, stem by stem: measuring it may change the plan. */
function guessed(falls: readonly PlannedFall[]): string[] {
  const fields = new Map<string, string[]>();
  for (const { label, filledBy } of falls)
    for (const { field } of filledBy)
      fields.set(NOT_MEASURED[field], [...(fields.get(NOT_MEASURED[field]) ?? []), label]);
  return [...fields].map(([field, labels]) => `Assumed, not measured: ${field} of ${labels.join(', ')}.`);
}
