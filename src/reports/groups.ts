// One group, or everything that belongs to none, as a part of the report.
import {
  type Damage,
  dangersIn,
  type GroupView,
  groupLabel,
  type Hazard,
  type Locator,
  type Patch,
  type Sapling,
  type Stem,
} from '../stand/index.ts';
import { type Context, known, missing, recordedOr, term } from './context.ts';
import { dangerFacts } from './dangers.ts';
import { woodsFindings } from './findings.ts';
import { damagePart, hazardRows } from './harm.ts';
import { keptPart } from './kept.ts';
import type { GroupPart } from './model.ts';
import { paperFacts, papersOf } from './notes.ts';
import { openingTerms } from './opening.ts';
import { planFacts, plansComparedJson } from './plan.ts';
import { decaySummary, inOrder, stemRow, tallyStems } from './stems.ts';

type Things = Readonly<{
  stems: readonly Stem[];
  saplings: readonly Sapling[];
  patches: readonly Patch[];
  hazards: readonly Hazard[];
  damages: readonly Damage[];
}>;

export function groupPart(context: Context, view: GroupView, locator: Locator): GroupPart {
  const { group } = view;
  const { stand } = context.folded;
  const entries = context.numbers(group.entries.slice(0, 1));
  const widened = group.widened.map(({ entry, reason }) =>
    term('Widened', known(reason, context.numbers([entry]))),
  );
  return {
    id: group.id,
    label: groupLabel(group),
    block: recordedOr(group.block && (stand.blocks.get(group.block)?.name ?? 'an unknown block'), entries),
    facts: [term('Reason', recordedOr(group.reason, entries)), ...widened],
    opening: openingTerms(context, group, locator),
    ...thingParts(context, view),
    plan: planFacts(context, group),
    plansCompared: plansComparedJson(context.folded, group),
    findings: woodsFindings(context, view.findings),
    notes: paperFacts(context, papersOf(context, view)),
  };
}

/** What belongs to no group; undefined when there is nothing of that sort. */
export function loosePart(context: Context, views: readonly GroupView[]): GroupPart | undefined {
  const { stand } = context.folded;
  const rest = <T>(all: Iterable<T>, claimed: (view: GroupView) => readonly T[]): T[] => {
    const taken = new Set(views.flatMap(claimed));
    return [...all].filter((thing) => !taken.has(thing));
  };
  const things: Things = {
    stems: rest(stand.stems.values(), ({ stems }) => stems),
    saplings: rest(stand.saplings.values(), ({ saplings }) => saplings),
    patches: rest(stand.patches.values(), ({ patches }) => patches),
    hazards: rest(stand.hazards.values(), ({ hazards }) => hazards),
    damages: rest(stand.damages.values(), ({ damages }) => damages),
  };
  if (Object.values(things).every((list: readonly unknown[]) => list.length === 0)) return undefined;
  return {
    label: 'Outside any group',
    block: missing('various, or not recorded'),
    facts: [],
    opening: [],
    ...thingParts(context, things),
    plan: [],
    plansCompared: [],
    findings: [],
    notes: [],
  };
}

function thingParts(context: Context, things: Things) {
  const stems = inOrder(things.stems);
  const now = dangersIn(context.folded.stand);
  return {
    warnings: dangerFacts(context, {
      hungUp: now.hungUp.filter((stem) => things.stems.includes(stem)),
      hazards: now.hazards.filter((hazard) => things.hazards.includes(hazard)),
    }),
    tally: tallyStems(context, stems),
    stems: stems.map((stem) => stemRow(context, stem)),
    decay: decaySummary(context, stems),
    kept: keptPart(context, things.saplings, things.patches),
    hazards: hazardRows(context, things.hazards),
    damage: damagePart(context, things.damages, things.stems),
  };
}
