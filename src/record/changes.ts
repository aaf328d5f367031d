// What an amendment changes: fields typed anew, and fields taken out. Everything else stays as it was.
import {
  type Form,
  isRequired,
  type JsonObject,
  type Kind,
  nearest,
  type TypingProblem,
} from '../events/index.ts';

export type Changed =
  | { ok: true; fields: Readonly<Record<string, unknown>> }
  | { ok: false; problems: readonly TypingProblem[] };

/** Typed instead of a value, these take the field out, unless the field has the word among its choices. */
const nothing: ReadonlySet<string> = new Set(['none', 'nothing']);

/**
 * Lays what was typed over a body.
 * @param typed the fields typed anew; `takeOut` names fields to be taken out
 */
export function change(kind: Kind, body: JsonObject, typed: Readonly<Record<string, unknown>>): Changed {
  const { takeOut, ...anew } = typed;
  const byWord = Object.keys(anew).filter((name) => saysNothing(kind.fields[name]?.form, anew[name]));
  const byName = namesIn(takeOut);
  const problems = [
    ...byName.flatMap((name) => (name in anew ? [both(name)] : [])),
    ...[...new Set([...byName, ...byWord])].flatMap((name) => whyNotOut(kind, body, name)),
  ];
  if (problems.length > 0) return { ok: false, problems };
  const out = new Set([...byName, ...byWord]);
  const merged = Object.entries({ ...body, ...anew }).filter(([name]) => !out.has(name));
  return { ok: true, fields: Object.fromEntries(merged) };
}

function saysNothing(form: Form | undefined, value: unknown): boolean {
  if (form === undefined || typeof value !== 'string') return false;
  const word = value.trim().toLowerCase();
  const one = form.is === 'list' ? form.of : form;
  return nothing.has(word) && !(one.is === 'choice' && one.options.includes(word));
}

/** Names of fields, as members (stumpHeight) or as flags (stump-height), one or several. */
function namesIn(takeOut: unknown): string[] {
  const parts = Array.isArray(takeOut) ? takeOut : [takeOut];
  return parts
    .filter((part) => part !== undefined)
    .flatMap((part) => String(part).split(/[;,]/))
    .map((part) => part.trim().replace(/^--/, ''))
    .filter((part) => part !== '')
    .map((part) => part.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase()));
}

function whyNotOut(kind: Kind, body: JsonObject, name: string): TypingProblem[] {
  const field = Object.hasOwn(kind.fields, name) ? kind.fields[name] : undefined;
  const refused = (remedy: string) => [{ field: 'takeOut', value: name, remedy }];
  if (field === undefined) {
    const near = nearest(name, Object.keys(body));
    const suggestion =
      near === undefined ? `it has ${Object.keys(body).join(', ')}` : `did you mean ${near}?`;
    return refused(`"${kind.title}" has no such field; ${suggestion}`);
  }
  if (isRequired(field) || field.form.is === 'identity')
    return refused(`"${kind.title}" cannot be without it; type the right value, or strike the entry`);
  if (!Object.hasOwn(body, name))
    return refused('the entry has no such value, so there is nothing to take out');
  return [];
}

function both(name: string): TypingProblem {
  return { field: 'takeOut', value: name, remedy: 'is typed anew as well; say one of the two' };
}
