// GET /groups/{group}/plan: the plan page; POST there adopts the plan that the page shows. GET /groups/{group}/plan/{stem}: a
// worksheet.
import { adoption, defaultsOf, FellingError, type FellingPlan, planHash } from '../../felling/index.ts';
import { recordDraft } from '../../record/index.ts';
import { type Group, viewGroup } from '../../stand/index.ts';
import { unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import type { MayAdopt } from '../page/plan/adopted.ts';
import { type FormFault, faultOf } from '../page/plan/faults.ts';
import { addressOf, type FormState, readForm, typedOf } from '../page/plan/form.ts';
import { faultsOf, planPage } from '../page/plan/page.ts';
import { worksheetPage } from '../page/plan/worksheet.ts';
import { groupNamed } from '../plan-query.ts';
import { plannerOf } from '../planner.ts';
import { badParameter, Problem, sentence } from '../problems.ts';
import type { Look } from '../reading.ts';
import type { Request } from '../request.ts';

const page = 'text/html; charset=utf-8';

export function addPlanPage(app: App, room: Room): void {
  app.get('/groups/:group/plan', async (context) => {
    wanted(context, ['text/html']);
    return room.reading.look({}, (look) => {
      const shown = shownAt(context, room, look);
      const { state, plan } = shown;
      const asked = addressOf(state);
      // What is empty or usual is left out of the address that is kept.
      if (state.unknown.length === 0 && queryOf(asked) !== new URL(context.req.url).search)
        return context.redirect(asked, 303);
      const today = new Date(room.now()).toISOString().slice(0, 10);
      const same = unchanged(
        context,
        look.head,
        `text/html ${room.program} ${today} ${context.var.caller.role}`,
      );
      if (same !== undefined && plan !== undefined) return same;
      return showPage(context, room, look, shown);
    });
  });

  app.post('/groups/:group/plan', async (context) => {
    const may = mayAdopt(context, room);
    if (!may.ok) throw new Problem('read-only', may.why);
    const sent = await sentForm(context);
    return room.inTurn(() => adopt(context, room, { may, sent }));
  });

  app.get('/groups/:group/plan/:stem', async (context) => {
    wanted(context, ['text/html']);
    return room.reading.look({}, (look) => {
      const shown = shownAt(context, room, look);
      const { group, state, plan } = shown;
      if (plan === undefined || state.unknown.length > 0) return showPage(context, room, look, shown);
      const named = context.req.param('stem');
      const of = [...plan.falls, ...plan.aside].find(({ stem, label }) => stem === named || label === named);
      if (of === undefined)
        throw badParameter({
          field: 'stem',
          value: named,
          remedy: 'it is not to be felled in this group now, or has no place',
        });
      const { folded } = look;
      return answer(context, worksheetPage({ plan, of, state, group, folded, program: room.program }), 200);
    });
  });
}

function showPage(context: Request, room: Room, look: Look, shown: Shown): Response {
  const adopting = { may: mayAdopt(context, room), fault: undefined };
  const body = planPage({ look, ...shown, adopting, program: room.program });
  return answer(context, body, faultsOf(shown).length > 0 ? 400 : 200);
}

type Shown = Readonly<{
  group: Group;
  state: FormState;
  plan: FellingPlan | undefined;
  fault: FormFault | undefined;
  /** Who fells by it, if that is known. */
  planner: string | undefined;
}>;

/** @param when the time of a plan that was shown before; today if left out */
function shownAt(context: Request, room: Room, look: Look, when?: string): Shown {
  const { stand, findings } = look.folded;
  const name = context.req.param('group') ?? '';
  const group = groupNamed(name, look);
  const query = new URL(context.req.url).searchParams;
  const who = whoFells(context, room, look, query.get('by')?.trim());
  const { standingCut } = viewGroup(stand, findings, group);
  const state = readForm(name, standingCut, stand, { query, own: defaultsOf(stand, who.planner).used });
  const { planner, fault } = who;
  if (fault !== undefined) return { group, state, plan: undefined, fault, planner };
  const asked = { look, moment: {}, group, typed: { ...typedOf(state), planner } };
  try {
    const plan = when === undefined ? room.plans.today(asked) : room.plans.again(asked, when);
    return { group, state, plan, fault: undefined, planner };
  } catch (error) {
    if (!(error instanceof FellingError)) throw error;
    return { group, state, plan: undefined, fault: faultOf(error, state), planner };
  }
}

type Who = Readonly<{ planner: string | undefined; fault: FormFault | undefined }>;

function whoFells(context: Request, room: Room, look: Look, by: string | undefined): Who {
  try {
    return { planner: plannerOf(room, context, look, by === '' ? undefined : by), fault: undefined };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { planner: undefined, fault: { says: error.message, fields: ['by'] } };
  }
}

function queryOf(address: string): string {
  const at = address.indexOf('?');
  return at < 0 ? '' : address.slice(at);
}

function mayAdopt({ var: { caller } }: Request, { desk }: Room): MayAdopt {
  const { readOnly, newer } = desk.log.facts();
  if (readOnly || newer)
    return { ok: false, why: 'This logbook can only be read here, so no plan can be adopted.' };
  if (caller.role !== 'keeper')
    return {
      ok: false,
      why: 'A plan is adopted at the computer of the logbook, or on a phone in the field.',
    };
  return { ok: true };
}

type Sent = Readonly<{ plan: string; when: string }>;

async function sentForm(context: Request): Promise<Sent> {
  const type = context.req.header('content-type') ?? '';
  if (!/^application\/x-www-form-urlencoded\s*(?:;|$)/i.test(type))
    throw new Problem('unsupported-media-type', 'A plan is adopted by the form of this page.');
  const sent = new URLSearchParams(await context.req.text());
  return { plan: sent.get('plan') ?? '', when: sent.get('when') ?? '' };
}

type Adopting = Readonly<{ may: MayAdopt; sent: Sent }>;

/** Records the plan that was shown, and no other: what is recorded by now must give it again. */
async function adopt(context: Request, room: Room, { may, sent }: Adopting): Promise<Response> {
  const looked = await room.reading.look({}, (look) => {
    const isTime = /^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(sent.when) && !Number.isNaN(Date.parse(sent.when));
    const shown = isTime ? shownAt(context, room, look, sent.when) : undefined;
    const { plan, state, planner } = shown ?? shownAt(context, room, look);
    const isSame = shown !== undefined && plan !== undefined && planHash(plan) === sent.plan;
    return {
      address: addressOf(state),
      planner,
      fields: isSame ? adoption(plan, look.head.size) : undefined,
    };
  });
  const { address, fields, planner } = looked;
  if (fields === undefined)
    return refused(context, room, may, {
      status: 409,
      fault:
        'Nothing was recorded: what is recorded by now gives another plan than the one that you saw. This is the plan now. Look at it, then adopt it.',
    });
  if (planner === undefined)
    return refused(context, room, may, {
      status: 422,
      fault:
        'Nothing was recorded: it is not known who adopts the plan. Give a name that is in the logbook under “Who fells by it”, plan again, then adopt it.',
    });
  const recorded = await recordDraft(room.desk, {
    kind: 'felling-plan-adopted',
    fields,
    by: planner,
  });
  if (recorded.outcome === 'recorded') {
    await room.recorded();
    return context.redirect(`${address}#adopted`, 303);
  }
  const fault =
    recorded.outcome === 'questions'
      ? recorded.questions.map((question) => question.sentence)
      : recorded.problems.map(({ field, value, remedy }) => `${field} “${value}”: ${sentence(remedy)}`);
  return refused(context, room, may, {
    status: recorded.outcome === 'questions' ? 409 : 422,
    fault: `Nothing was recorded. ${fault.join(' ')}`,
  });
}

type Refusal = Readonly<{ status: 409 | 422; fault: string }>;

function refused(context: Request, room: Room, may: MayAdopt, { status, fault }: Refusal): Promise<Response> {
  return room.reading.look({}, (look) => {
    const adopting = { may, fault };
    return answer(
      context,
      planPage({ look, ...shownAt(context, room, look), adopting, program: room.program }),
      status,
    );
  });
}

function answer(context: Request, body: string, status: 200 | 400 | 409 | 422): Response {
  context.header('Content-Type', page);
  if (status !== 200) context.header('Cache-Control', 'no-store');
  return context.body(body, status);
}
