// gapledger replay: steps through a group. What happened, what stood, what was at risk.
import { knownNames } from '../src/record/index.ts';
import { planSentences, plansComparedJson } from '../src/reports/index.ts';
import {
  dangersIn,
  describe,
  type Folded,
  type Group,
  type Happening,
  hazardWords,
  isLate,
  playBack,
  type Stand,
  saplingLabel,
  stemLabel,
  timeText,
  viewGroup,
} from '../src/stand/index.ts';
import { sayDangers } from './cautions.ts';
import { findGroup } from './group.ts';
import {
  ask,
  type CommonOptions,
  canAsk,
  Failure,
  type MomentOptions,
  paint,
  readMoment,
  say,
  sayJson,
  standAt,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & { step?: boolean };
type Step = {
  happenedAt: Happening['happenedAt'];
  number: number | undefined;
  says: string;
  standing: string[];
  hungUp: string[];
  atRisk: string[];
  hazards: string[];
  late: boolean;
};

export async function work([name = '']: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const moment = await readMoment(log, flags);
    const folded = await standAt(log, moment);
    const group = findGroup(folded.stand, name);
    const names = await knownNames(log, folded);
    const mine = new Set(happeningsOf(folded, group.id));
    const steps: Step[] = [];
    for (const { happening, stand } of playBack(folded.happenings)) {
      if (!mine.has(happening)) continue;
      steps.push(stepAt(stand, happening, group.id, describe(happening.event, folded.stand, names)));
    }
    if (flags.json) return sayJson({ group: group.label, steps, plans: plansComparedJson(folded, group) });
    sayDangers(folded.stand);
    say('');
    for (const [index, step] of steps.entries()) {
      print(step, index + 1, steps.length);
      if (flags.step && canAsk() && index + 1 < steps.length && !(await goOn())) return;
    }
    sayPlanKept(folded, group);
  });
}

/** What became of the plans that were adopted, in the words of the report. */
function sayPlanKept(folded: Folded, group: Group): void {
  const sentences = planSentences(folded, group);
  if (sentences.length === 0) return;
  say('');
  say(paint.bold('The felling plan, and what became of it'));
  for (const sentence of sentences) say(`  ${sentence}`);
}

/** Enter goes on; Ctrl-C is enough of it, and no failure. */
async function goOn(): Promise<boolean> {
  try {
    await ask('Enter for the next');
    return true;
  } catch (error) {
    if (error instanceof Failure) return false;
    throw error;
  }
}

/** Everything that concerns a group, in order of happening. */
function happeningsOf({ stand, happenings }: Folded, group: string): Happening[] {
  const things = new Set<string>([group]);
  for (const found of [stand.stems, stand.saplings, stand.patches, stand.hazards]) {
    for (const thing of found.values()) if (thing.group === group) things.add(thing.id);
  }
  const members = ['group', 'stem', 'sapling', 'patch', 'hazard'] as const;
  return happenings.filter(({ event }) => {
    const body = event.body as Partial<Record<(typeof members)[number], unknown>>;
    return members.some((name) => typeof body[name] === 'string' && things.has(body[name]));
  });
}

function stepAt(stand: Stand, happening: Happening, groupId: string, says: string): Step {
  const group = stand.groups.get(groupId);
  const view = group === undefined ? undefined : viewGroup(stand, [], group);
  const dangers = dangersIn(stand, groupId);
  return {
    happenedAt: happening.happenedAt,
    number: happening.entry.position,
    says,
    standing: view?.standingCut.map(stemLabel) ?? [],
    hungUp: dangers.hungUp.map(stemLabel),
    atRisk: atRisk(stand, groupId),
    hazards: dangers.hazards.map((hazard) => hazardWords(stand, hazard)),
    late: isLate(happening.happenedAt, happening.entry.recordedAt),
  };
}

/** While stems are still to be felled: saplings and patches not known to be lost, and leave trees that stand. */
function atRisk(stand: Stand, group: string): string[] {
  const saplings = [...stand.saplings.values(), ...stand.patches.values()].filter(
    (thing) => thing.group === group && !['broken', 'crushed'].includes(thing.checks.at(-1)?.condition ?? ''),
  );
  const leave = [...stand.stems.values()].filter(
    (stem) => stem.group === group && stem.mark === 'leave' && stem.status === 'standing',
  );
  return [...saplings.map(saplingLabel), ...leave.map(stemLabel)];
}

function print(step: Step, index: number, of: number): void {
  say(
    `${paint.bold(`${index}/${of}`)}  ${timeText(step.happenedAt)}  ${step.says}${step.number === undefined ? '' : paint.dim(`  [${step.number}]`)}${step.late ? ' (entered late)' : ''}`,
  );
  const list = (names: readonly string[]) => (names.length === 0 ? 'none' : names.join(', '));
  say(`       to be felled: ${list(step.standing)}; at risk: ${list(step.atRisk)}`);
  if (step.hungUp.length + step.hazards.length > 0) {
    const hungUp = step.hungUp.map((label) => `${label} is hung up`);
    say(`       ${paint.bold('open then')}: ${[...hungUp, ...step.hazards].join('; ')}`);
  }
}
