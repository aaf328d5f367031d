// Hazards, open ones first, and damage with its wounds.
import {
  counted,
  type Damage,
  type Hazard,
  positionWords,
  type Stand,
  type Stem,
  saplingLabel,
  stemLabel,
  withUnit,
  words,
} from '../stand/index.ts';
import { type Context, known, missing, recordedOr } from './context.ts';
import type { DamageRow, Fact, HazardRow } from './model.ts';

export function hazardRows(context: Context, hazards: readonly Hazard[]): HazardRow[] {
  const rows = hazards.map((hazard) => hazardRow(context, hazard));
  return [
    ...rows.filter(({ state }) => state === 'open'),
    ...rows.filter(({ state }) => state === 'cleared'),
  ];
}

function hazardRow(context: Context, hazard: Hazard): HazardRow {
  const { stand } = context.folded;
  const clearing = context.happening(hazard.clearedBy);
  const how = clearing?.event.type === 'hazard-cleared' ? clearing.event.body.how : undefined;
  return {
    id: hazard.id,
    state: hazard.clearedBy === undefined ? 'open' : 'cleared',
    what: words(hazard.what),
    where:
      hazard.stem === undefined
        ? whereabouts(stand, hazard)
        : `at ${stemLabel(stand.stems.get(hazard.stem))}`,
    keepAway: recordedOr(hazard.radius && withUnit(hazard.radius)),
    noted: known([context.time(hazard.notedAt), hazard.note].filter(Boolean).join(', ')),
    cleared:
      hazard.clearedBy === undefined
        ? missing('not cleared')
        : known(
            [clearing && context.time(clearing.happenedAt), how ?? 'how not recorded']
              .filter(Boolean)
              .join(', '),
            context.numbers([hazard.clearedBy]),
          ),
    entries: context.numbers(hazard.entries),
  };
}

function whereabouts(stand: Stand, { position }: Hazard): string {
  return position === undefined ? 'place not recorded' : positionWords(stand, position.entered);
}

export function damagePart(
  context: Context,
  damages: readonly Damage[],
  stems: readonly Stem[],
): { summary: Fact; rows: DamageRow[] } {
  const leave = stems.filter(({ mark }) => mark === 'leave');
  const hurt = new Set(damages.map(({ body }) => body.stem));
  const damaged = leave.filter(({ id }) => hurt.has(id));
  const rows = damages.map((damage) => damageRow(context, damage));
  const entries = context.numbers(damages.flatMap((damage) => damage.entries));
  if (rows.length === 0) {
    return {
      summary: missing('No damage is recorded. That nobody wrote any down does not say that there is none.'),
      rows,
    };
  }
  return {
    summary: known(
      `${counted(rows.length, 'case', 'cases')} of damage recorded; ${damaged.length} of ${counted(leave.length, 'leave tree')} recorded here ${damaged.length === 1 ? 'is' : 'are'} among them.`,
      entries,
    ),
    rows,
  };
}

function damageRow(context: Context, { id, body, at, entries }: Damage): DamageRow {
  const { stand } = context.folded;
  const stem = body.stem === undefined ? undefined : stemLabel(stand.stems.get(body.stem));
  const sapling = body.sapling === undefined ? undefined : saplingLabel(stand.saplings.get(body.sapling));
  return {
    id,
    to: [words(body.to), stem, sapling].filter(Boolean).join(' '),
    part: recordedOr(body.part),
    woundArea: recordedOr(body.woundArea && withUnit(body.woundArea), [], 'not measured'),
    woundHeight: recordedOr(body.woundHeight && withUnit(body.woundHeight), [], 'not measured'),
    by: recordedOr(body.byStem && stemLabel(stand.stems.get(body.byStem))),
    what: recordedOr(body.what),
    noted: context.time(at),
    entries: context.numbers(entries),
  };
}
