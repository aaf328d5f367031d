// How the log was kept: findings about the record, corrections, late entries, people, what cannot be read.
// Always about the whole log, also when the report shows one group.
import { counted, describe, type Finding, type GroupView, isLate } from '../stand/index.ts';
import { type Context, known, missing, recordedOr } from './context.ts';
import { correctionRows } from './corrections.ts';
import { inFours } from './evidence.ts';
import { recordFindings, woodsFindings } from './findings.ts';
import type { Fact, LateRow, PersonRow, RecordPart } from './model.ts';
import { otherPapers, paperFacts } from './notes.ts';

export function recordPart(
  context: Context,
  elsewhere: readonly Finding[],
  views: readonly GroupView[],
): RecordPart {
  return {
    elsewhere: woodsFindings(context, elsewhere),
    findings: recordFindings(context, context.folded.findings),
    corrections: correctionRows(context),
    late: lateRows(context),
    people: personRows(context),
    notes: paperFacts(context, otherPapers(context, views)),
    issued: issuedBefore(context),
    unreadable: unreadable(context),
  };
}

function lateRows(context: Context): LateRow[] {
  const { happenings, stand } = context.folded;
  return happenings
    .filter(({ entry, happenedAt }) => isLate(happenedAt, entry.recordedAt))
    .map(({ entry, event, happenedAt }) => ({
      entry: context.number(entry.id),
      what: describe(event, stand, context.names),
      happened: context.time(happenedAt),
      recorded: context.recorded(entry.recordedAt),
      who: context.person(entry.by).text,
    }));
}

/** Everybody who was named or recorded something; those who recorded most come first. */
function personRows(context: Context): PersonRow[] {
  const { entries, stand } = context.folded;
  const recorded = new Map<string, number>([...stand.people.keys()].map((id) => [id, 0]));
  for (const { by } of entries.values()) recorded.set(by, (recorded.get(by) ?? 0) + 1);
  return [...recorded]
    .sort(([idA, a], [idB, b]) => b - a || (idA < idB ? -1 : 1))
    .map(([id, count]) => {
      const person = stand.people.get(id);
      return {
        name: context.person(id),
        part: recordedOr(person?.part),
        recorded: count,
      };
    });
}

function unreadable(context: Context): Fact[] {
  const ids = [...context.folded.standings]
    .filter(([, standing]) => standing === 'not readable here')
    .map(([id]) => id);
  if (ids.length === 0) return [];
  return [
    missing(
      `${counted(ids.length, 'entry is', 'entries are')} kept in the log and cannot be read by this program; what ${ids.length === 1 ? 'it says' : 'they say'} is not part of this report. A newer program may read ${ids.length === 1 ? 'it' : 'them'}.`,
      context.numbers(ids),
    ),
  ];
}

function issuedBefore(context: Context): Fact[] {
  return context.folded.stand.reports.map(({ body, at, entry }) =>
    known(
      `${context.time(at)}: ${body.report} report on a log of ${body.size} entries${body.to === undefined ? '' : `, for ${body.to}`}, root ${inFours(body.root)}`,
      context.numbers([entry]),
    ),
  );
}
