// Saplings and regeneration patches that were to be kept: how many were protected, checked, harmed, and
// how many nobody looked at. Not checked is not unharmed; not found is not dead.
import { type JsonObject, speciesName } from '../events/index.ts';
import { type Patch, type Sapling, saplingLabel, stemLabel, withUnit, words } from '../stand/index.ts';
import { type Context, known, missing, recordedOr } from './context.ts';
import type { Fact, KeptPart, KeptRow, TallyRow } from './model.ts';

type Kept = { is: 'sapling'; thing: Sapling } | { is: 'patch'; thing: Patch };

export function keptPart(
  context: Context,
  saplings: readonly Sapling[],
  patches: readonly Patch[],
): KeptPart {
  const kept: Kept[] = [
    ...saplings.map((thing) => ({ is: 'sapling' as const, thing })),
    ...patches.map((thing) => ({ is: 'patch' as const, thing })),
  ];
  if (kept.length === 0) return { summary: [], rows: [] };
  return { summary: summarise(context, kept), rows: kept.map((one) => keptRow(context, one)) };
}

function summarise(context: Context, kept: readonly Kept[]): TallyRow[] {
  const row = (what: string, wanted: (one: Kept) => boolean): TallyRow => {
    const those = kept.filter(wanted);
    return {
      what,
      count: those.length,
      which: those.map(({ thing }) => saplingLabel(thing)),
      entries: context.numbers(those.flatMap(({ thing }) => thing.entries)),
    };
  };
  const last = ({ thing }: Kept) => thing.checks.at(-1)?.condition;
  const harmed = new Set<string | undefined>(['bent', 'broken', 'crushed']);
  return [
    row('saplings protected', ({ is }) => is === 'sapling'),
    row('patches protected', ({ is }) => is === 'patch'),
    row('checked after felling', ({ thing }) => thing.checks.length > 0),
    row('unharmed when last checked', (one) => last(one) === 'unharmed'),
    row('harmed when last checked (bent, broken or crushed)', (one) => harmed.has(last(one))),
    row('not found when last checked (not the same as dead)', (one) => last(one) === 'not-found'),
    row('not checked', ({ thing }) => thing.checks.length === 0),
  ];
}

function keptRow(context: Context, one: Kept): KeptRow {
  const { thing } = one;
  return {
    id: thing.id,
    is: one.is,
    label: saplingLabel(thing),
    species: recordedOr(thing.species && speciesName(thing.species)),
    size: recordedOr(sizeOf(one)),
    checks: thing.checks.length === 0 ? [missing('not checked')] : thing.checks.map(checkFact),
    entries: context.numbers(thing.entries),
  };

  function checkFact({ condition, by, at, entry }: Sapling['checks'][number]): Fact {
    const body = context.happening(entry)?.event.body as JsonObject | undefined;
    const share = body?.share as { text: string } | undefined;
    const note = body?.note as string | undefined;
    const said = [
      `${words(condition)}${share === undefined ? '' : ` (${share.text} of it)`}`,
      by === undefined ? undefined : `by ${stemLabel(context.folded.stand.stems.get(by))}`,
      note,
      context.time(at),
    ];
    return known(said.filter(Boolean).join(', '), context.numbers([entry]));
  }
}

function sizeOf(one: Kept): string | undefined {
  if (one.is === 'patch') return one.thing.area && withUnit(one.thing.area);
  const { height, diameter } = one.thing;
  const said = [height && `${withUnit(height)} high`, diameter && `${withUnit(diameter)} through`];
  return said.filter(Boolean).join(', ') || undefined;
}
