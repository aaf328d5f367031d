// gapledger plan and worksheet: in which order and direction to fell a group, computed from what is recorded; one stem's
// notch and hinge; and adopting a plan.
import {
  adoption,
  comparePlan,
  FellingError,
  type FellingPlan,
  type PlanCompared,
  type PlanTyped,
  planAsked,
  planJson,
} from '../src/felling/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { headAt, knownNames, recordDraft, whoDidIt } from '../src/record/index.ts';
import { planComparedJson, planSheet, toldBy, worksheetSheet } from '../src/reports/index.ts';
import { type Folded, findThing, type Group, type Names } from '../src/stand/index.ts';
import { sayAllCautions, sayDangers } from './cautions.ts';
import { checkMapName, writeMap } from './felling-map.ts';
import { findGroup } from './group.ts';
import { refusal } from './record-asking.ts';
import { describeRecorded } from './recorded.ts';
import { saySheet } from './sheet.ts';
import {
  type CommonOptions,
  exitCodes,
  Failure,
  type MomentOptions,
  personHere,
  problemSentence,
  readMoment,
  say,
  sayJson,
  standAt,
  tell,
  withDesk,
  withLog,
} from './terminal/index.ts';

type Flags = CommonOptions & MomentOptions & PlanTyped & { adopt?: boolean; by?: string; map?: string };

export async function work([name = '']: string[], flags: Flags, version: string): Promise<void> {
  if (flags.map !== undefined) checkMapName(flags.map);
  await withLog(flags, async (log) => {
    const folded = await standAt(log, await readMoment(log, flags));
    const group = findGroup(folded.stand, name);
    const names = await knownNames(log, folded);
    const plan = planOf(folded, group, { ...flags, planner: plannerOf(log, folded, names, flags) });
    const compared = comparePlan(folded, group.id);
    const adopted = compared === undefined ? null : planComparedJson(compared, folded);
    if (flags.json === true) sayJson({ ...planJson(plan, folded), adopted });
    else sayPlan(plan, folded, compared, names);
    if (flags.map !== undefined)
      await writeMap(flags.map, plan, {
        system: systemOf(folded),
        zone: folded.stand.logbook?.body.zone ?? 'UTC',
        program: `gapledger ${version}`,
      });
    if (flags.adopt === true) await adopt(plan, flags);
  });
}

/** The worksheet of one stem, aimed as in the plan of its group. */
export async function workSheet([tag = '']: string[], flags: Flags): Promise<void> {
  await withLog(flags, async (log) => {
    const folded = await standAt(log, await readMoment(log, flags));
    const found = findThing(folded.stand, 'stem', tag, new Map(), folded.entries);
    if (!found.ok) throw new Failure(exitCodes.badInput, `stem "${tag}": ${found.remedy}`);
    const group = folded.stand.groups.get(folded.stand.stems.get(found.value)?.group ?? '');
    if (group === undefined)
      throw new Failure(exitCodes.badInput, `stem "${tag}": it is in no group; mark it to be cut with one.`);
    const names = await knownNames(log, folded);
    const plan = planOf(folded, group, { ...flags, planner: plannerOf(log, folded, names, flags) });
    const fall = plan.falls.find(({ stem }) => stem === found.value);
    const aside = plan.aside.find(({ stem }) => stem === found.value);
    sayBefore(folded);
    if (fall === undefined)
      throw new Failure(
        exitCodes.badInput,
        aside === undefined
          ? `stem "${tag}": it is not to be felled now, or has no place.`
          : `stem "${tag}": no worksheet. ${aside.because} ${aside.remedies.join(' ')}`,
      );
    if (flags.json === true) sayJson(planJson({ ...plan, falls: [fall] }, folded));
    else saySheet(worksheetSheet(fall, systemOf(folded)));
  });
}

/** Whose recorded numbers count: who is named, else who records on this machine; nobody's where that is not known. */
function plannerOf(log: Log, { stand }: Folded, names: Names, { by }: Flags): string | undefined {
  const person = personHere(log);
  const who = whoDidIt(person === undefined ? {} : { person }, by, stand, names);
  if (who.ok) return who.value;
  if (by !== undefined) throw new Failure(exitCodes.badInput, problemSentence(who.problem, '--by'));
  return undefined;
}

function planOf({ stand }: Folded, group: Group, flags: Flags): FellingPlan {
  try {
    return planAsked(stand, group, flags, new Date().toISOString());
  } catch (error) {
    if (error instanceof FellingError)
      throw new Failure(
        exitCodes.badInput,
        `${error.field}${error.value === '' ? '' : ` "${error.value}"`}: ${error.message}`,
      );
    throw error;
  }
}

function sayBefore({ stand }: Folded): void {
  sayDangers(stand);
  sayAllCautions(stand);
  say('');
}

function sayPlan(plan: FellingPlan, folded: Folded, compared: PlanCompared | undefined, names: Names): void {
  sayBefore(folded);
  if (compared !== undefined && compared.ended.length > 0) {
    say('The plan that was adopted no longer holds. Stop.');
    for (const reason of compared.ended) say(`  ${reason}`);
    say('What follows is computed anew from what is recorded now.');
    say('');
  }
  saySheet(planSheet(plan, systemOf(folded), toldBy(folded, names)));
}

function systemOf({ stand }: Folded): 'inch' | 'metric' {
  return stand.logbook?.body.units === 'metric' ? 'metric' : 'inch';
}

async function adopt(plan: FellingPlan, flags: Flags): Promise<void> {
  if (plan.falls.length === 0)
    throw new Failure(exitCodes.badInput, `plan "${plan.group.label}": there is no fall to adopt.`);
  await withDesk(flags, async (desk) => {
    const head = await headAt(desk.log, {});
    const fields = adoption(plan, head.size);
    const recorded = await recordDraft(desk, {
      kind: 'felling-plan-adopted',
      fields,
      ...(flags.by === undefined ? {} : { by: flags.by }),
    });
    if (recorded.outcome !== 'recorded') throw refusal(recorded);
    if (flags.json !== true) await describeRecorded(desk.log, recorded, false);
    else tell('Adopted.');
  });
}
