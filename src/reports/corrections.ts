// What was put right: which version, by which entry, what changed, why, who and when.
import canonicalize from 'canonicalize';
import { type JsonObject, type JsonValue, readBody } from '../events/index.ts';
import { describe, isCorrection, type LogEntry, type Standing, words } from '../stand/index.ts';
import type { Context } from './context.ts';
import type { CorrectionRow } from './model.ts';
import { valueText } from './values.ts';

type Version = { type: string; v: number; body: JsonObject; at?: string };

export function correctionRows(context: Context): CorrectionRow[] {
  return [...context.folded.entries.values()]
    .filter(({ type }) => isCorrection(type))
    .map((entry) => correctionRow(context, entry))
    .filter((row) => row !== undefined)
    .sort((a, b) => Number(a.correction) - Number(b.correction) || (a.when < b.when ? -1 : 1));
}

function correctionRow(context: Context, entry: LogEntry): CorrectionRow | undefined {
  const reading = readBody(entry.type, entry.v, entry.body);
  if (!reading.ok) return undefined;
  const { event } = reading;
  if (event.type !== 'entry-amended' && event.type !== 'entry-struck') return undefined;
  const target = event.type === 'entry-amended' ? event.body.replaces : event.body.strikes;
  const before = versionOf(context.folded.entries.get(target));
  const after: Version | undefined =
    event.type === 'entry-amended'
      ? { type: event.body.type, v: event.body.v, body: event.body.body, at: event.body.happenedAt.at }
      : undefined;
  return {
    kind: event.type === 'entry-amended' ? 'amended' : 'struck',
    corrects: context.number(target),
    correction: context.number(entry.id),
    before: before === undefined ? 'an entry that is not in this log' : sentence(context, before),
    after: after === undefined ? 'taken out of the stand; it stays in the log' : sentence(context, after),
    changes: before === undefined || after === undefined ? [] : changes(context, before, after),
    reason: event.body.reason,
    who: context.person(entry.by).text,
    when: context.recorded(entry.recordedAt),
    holds: holds(context.folded.standings.get(entry.id)),
  };
}

/** An entry, or what an amendment makes of one. */
function versionOf(entry: LogEntry | undefined): Version | undefined {
  if (entry === undefined) return undefined;
  const reading = readBody(entry.type, entry.v, entry.body);
  if (reading.ok && reading.event.type === 'entry-amended') {
    const { type, v, body, happenedAt } = reading.event.body;
    return { type, v, body, at: happenedAt.at };
  }
  return { type: entry.type, v: entry.v, body: entry.body, at: entry.happenedAt.at };
}

function sentence(context: Context, { type, v, body }: Version): string {
  const reading = readBody(type, v, body);
  if (!reading.ok) return `${words(type)} (not readable here)`;
  return describe(reading.event, context.folded.stand, context.names);
}

function changes(context: Context, before: Version, after: Version): string[] {
  const fields = [...new Set([...Object.keys(before.body), ...Object.keys(after.body)])];
  const changed = fields
    .filter((field) => !same(before.body[field], after.body[field]))
    .map((field) => {
      const [was, is] = [before.body[field], after.body[field]].map((value) => valueText(context, value));
      return `${fieldName(field)}: ${was} → ${is}`;
    });
  const moved =
    before.at !== after.at && Date.parse(before.at ?? '') !== Date.parse(after.at ?? '')
      ? [`time: ${context.recorded(before.at ?? '')} → ${context.recorded(after.at ?? '')}`]
      : [];
  return [...changed, ...moved];
}

function same(a: JsonValue | undefined, b: JsonValue | undefined): boolean {
  return canonicalize(a ?? null) === canonicalize(b ?? null);
}

function fieldName(field: string): string {
  if (field === 'dbh') return 'DBH';
  return field.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function holds(standing: Standing | undefined): string {
  switch (standing) {
    case undefined:
    case 'in force':
      return 'holds';
    case 'struck':
      return 'was taken back (struck) later';
    case 'replaced':
      return 'does not apply: a later correction of the same version does';
    case 'amended':
      return 'was amended again later';
    case 'waiting':
      return 'does not apply: what it corrects is missing or of another kind';
    case 'not readable here':
      return 'cannot be read here';
  }
}
