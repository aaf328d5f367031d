// An amendment is typed as the fields that were wrong; the whole new body is made from the version in force.
import { isDeepStrictEqual } from 'node:util';
import {
  type JsonObject,
  kindOf,
  kinds,
  type Typing,
  type TypingProblem,
  typeBody,
} from '../events/index.ts';
import type { Happened } from '../log/entry/index.ts';
import type { Folded, Happening } from '../stand/index.ts';
import { change } from './changes.ts';

export type Completed =
  | { ok: true; fields: Readonly<Record<string, unknown>> }
  | { ok: false; problems: readonly TypingProblem[] };

/**
 * Completes the typed fields of "entry amended": those that are not its own belong to the kind of the entry, but
 * for `takeOut`, which names fields to be taken out, and `itsReason`, the reason that the entry itself gives.
 * @param happenedAt when the amended entry happened, if that was typed anew
 */
export function completeAmendment(
  fields: Readonly<Record<string, unknown>>,
  context: { folded: Folded; typing: Typing; happenedAt: Happened | undefined },
): Completed {
  const { replaces, reason, itsReason, ...others } = fields;
  const changes = itsReason === undefined ? others : { ...others, reason: itsReason };
  if ('body' in others) return { ok: true, fields };
  const unsaid = [
    ...(typeof replaces === 'string' ? [] : [missing('replaces')]),
    ...(reason === undefined || reason === '' ? [missing('reason')] : []),
  ];
  if (typeof replaces !== 'string' || unsaid.length > 0) return { ok: false, problems: unsaid };
  const target = context.typing.findEntry(replaces);
  if (!target.ok) return problem('replaces', replaces, target.remedy);
  const current = versionInForce(context.folded, target.value);
  const kind = current === undefined ? undefined : kindOf(current.event.type);
  if (current === undefined || kind === undefined) {
    return problem(
      'replaces',
      replaces,
      'this entry is struck, is itself a correction, or cannot be read here; only entries in force can be amended',
    );
  }
  const before = current.event.body as JsonObject;
  const changed = change(kind, before, changes);
  if (!changed.ok) return changed;
  const typed = typeBody(kind, changed.fields, context.typing);
  if (!typed.ok) return { ok: false, problems: typed.problems.map(asTyped) };
  const happenedAt = context.happenedAt ?? current.happenedAt;
  if (isDeepStrictEqual({ ...before }, typed.body) && isDeepStrictEqual(happenedAt, current.happenedAt)) {
    return problem(
      'replaces',
      replaces,
      'nothing would change: the entry says all of this already. Type the fields that were wrong, or name a field to take out',
    );
  }
  return {
    ok: true,
    fields: {
      replaces: current.version,
      type: kind.type,
      v: kind.v,
      body: typed.body,
      happenedAt,
      reason,
    },
  };
}

/** The version in force of an entry that is named by its own id or by that of any version that is not struck. */
export function versionInForce(folded: Folded, id: string): Happening | undefined {
  if (folded.standings.get(id) === 'struck') return undefined;
  const first = firstVersion(folded, id);
  return folded.happenings.find(({ entry }) => entry.id === first);
}

/** Goes back through amendments to the entry itself. */
function firstVersion({ entries }: Folded, id: string): string {
  const seen = new Set<string>();
  for (let current = id; ; ) {
    const entry = entries.get(current);
    const target = entry?.type === 'entry-amended' ? entry.body.replaces : undefined;
    if (typeof target !== 'string' || seen.has(target)) return current;
    seen.add(target);
    current = target;
  }
}

/** A reason of the entry was typed under another name than the reason of the amendment. */
function asTyped(one: TypingProblem): TypingProblem {
  return one.field === 'reason' ? { ...one, field: 'itsReason' } : one;
}

function missing(field: 'replaces' | 'reason'): TypingProblem {
  const help = kinds['entry-amended'].fields[field]?.help ?? '';
  return { field, value: '', remedy: `is needed. ${help}`, missing: true };
}

function problem(field: string, value: string, remedy: string): Completed {
  return { ok: false, problems: [{ field, value, remedy }] };
}
