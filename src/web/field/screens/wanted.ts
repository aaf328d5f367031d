// From what a draft holds to the entry that it asks for: the fields that its kind has, with place, lean and time put
// together. Pure.
import { type EventType, type JsonValue, kindOf, type TypingProblem } from '../../../events/index.ts';
import type { Draft, Wanted } from '../engine/port.ts';
import { placeOf } from './place/value.ts';
import { leanOf, timeOf } from './values.ts';

export type Keeping = Readonly<{
  kind: EventType;
  /** Fields besides those of the draft, and instead of them. */
  fields?: Readonly<Record<string, JsonValue | undefined>>;
  photo?: Wanted['photo'];
  /** What the draft begins with after this entry; without it the draft is put away. */
  next?: Draft;
}>;

type Asked = { ok: true; wanted: Wanted } | { ok: false; problems: readonly TypingProblem[] };

export function wantedOf({ kind, fields = {}, photo }: Keeping, draft: Draft): Asked {
  const known = kindOf(kind)?.fields ?? {};
  const place = 'position' in known ? placeOf(draft) : ({ ok: true, value: undefined } as const);
  const lean = 'lean' in known ? leanOf(draft) : ({ ok: true, value: undefined } as const);
  const time = timeOf(draft);
  if (!place.ok || !lean.ok || !time.ok) {
    const problems = [lean, time].flatMap((part) => (part.ok ? [] : [part.problem]));
    return { ok: false, problems: [...(place.ok ? [] : place.problems), ...problems] };
  }
  const all: Readonly<Record<string, JsonValue | undefined>> = {
    ...draft,
    position: place.value,
    lean: lean.value,
    ...fields,
  };
  const given = Object.entries(all).filter(
    (pair): pair is [string, JsonValue] => pair[0] in known && !isEmpty(pair[1]),
  );
  return {
    ok: true,
    wanted: {
      kind,
      fields: Object.fromEntries(given),
      ...(time.value === undefined ? {} : { happenedAt: time.value }),
      ...(photo === undefined ? {} : { photo }),
    },
  };
}

function isEmpty(value: JsonValue | undefined): boolean {
  return (
    value === undefined || value === null || value === '' || (Array.isArray(value) && value.length === 0)
  );
}
