// Which labels and ids a draft speaks of, before it is read: the slice of the logbook is loaded by them.
import type { Field, Kind } from '../events/index.ts';
import { kindOf } from '../events/index.ts';
import type { Wanted } from './slice.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const anchor = /from\s+(?:stem|stake)\s+([^;]+)/gi;

/** Labels in the typed fields of a draft; for an amendment also those of the kind it amends. */
export function wantedBy(
  kind: Kind,
  fields: Readonly<Record<string, unknown>>,
  entryIds: readonly string[],
): Wanted {
  const texts = Object.entries(fields).flatMap(([name, value]) => textsOf(kind.fields[name], value));
  const ids = texts.filter((text) => uuid.test(text));
  return { labels: texts.filter((text) => !uuid.test(text)), ids: [...ids, ...entryIds] };
}

function textsOf(field: Field | undefined, value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap((part) => textsOf(field, part));
  if (typeof value !== 'string') return [];
  // A field that this kind does not have may be one of the kind that is being amended.
  if (field === undefined) return [value, ...anchors(value)];
  const form = field.form.is === 'list' ? field.form.of : field.form;
  if (form.is === 'reference') return [value];
  if (form.is === 'position' || form.is === 'ring') return anchors(value);
  // A new tag or label is looked up too: it may be in use.
  return form.is === 'text' && value.length <= 200 ? [value] : [];
}

function anchors(text: string): string[] {
  return [...text.matchAll(anchor)].flatMap(([, label]) => (label === undefined ? [] : [label.trim()]));
}

/** The kind whose name somebody typed, with spaces or hyphens. */
export function kindTyped(text: string): Kind | undefined {
  return kindOf(text.trim().toLowerCase().replaceAll(/\s+/g, '-'));
}
