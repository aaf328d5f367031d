// Dates and times of a file: the order of day and month, and the zone, are asked once where the file leaves them open.
import { readTime } from '../../../events/index.ts';
import type { Happened } from '../../../log/entry/index.ts';
import type { Doubting } from '../doubt.ts';

type Written = Readonly<{ where: string; text: string }>;
export type DateReader = (text: string) => { ok: true; value: Happened } | { ok: false; remedy: string };

const slashed = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4}|\d{2})\b(.*)$/;

/** Looks at all dates of a file, asks what is open, and gives the reader for them. */
export function dateReader(
  all: readonly Written[],
  at: { zone: string; now: string },
  doubts: Doubting,
): DateReader {
  const order = orderOf(all, doubts);
  const zone = zoneOf(all, at.zone, doubts);
  const known = new Map<string, ReturnType<DateReader>>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const made = readOne(text, order, { ...at, zone });
    known.set(text, made);
    return made;
  };
}

type Order = 'day-first' | 'month-first';

function orderOf(all: readonly Written[], doubts: Doubting): Order {
  const dated = all.flatMap(({ where, text }) => {
    const [, first, second, year] = slashed.exec(text.trim()) ?? [];
    return first === undefined ? [] : [{ where, first: Number(first), second: Number(second), year }];
  });
  const dayFirst = dated.filter(({ first }) => first > 12);
  const monthFirst = dated.filter(({ second }) => second > 12);
  if (dated.length === 0 || (dayFirst.length === 0) !== (monthFirst.length === 0))
    return dayFirst.length > 0 ? 'day-first' : 'month-first';
  const mixed = dayFirst.length > 0;
  const [one] = dated;
  const answer = doubts.ask({
    code: 'day-month',
    sentence: mixed
      ? `Some dates have the day first (${dayFirst[0]?.where}) and some the month (${monthFirst[0]?.where}).`
      : `Dates such as ${one?.first}/${one?.second}/${one?.year} do not say whether the day or the month comes first.`,
    where: dated.map(({ where }) => where),
    choices: [
      { answer: 'month-first', label: 'the month comes first; what that makes impossible cannot be read' },
      { answer: 'day-first', label: 'the day comes first; what that makes impossible cannot be read' },
    ],
  });
  return answer === 'day-first' ? 'day-first' : 'month-first';
}

/** A clock time without zone may be the local one of the woods, or UTC as a receiver keeps it. */
function zoneOf(all: readonly Written[], zone: string, doubts: Doubting): string {
  const open = all.filter(
    ({ text }) => /\d:\d\d/.test(text) && !/(?:Z|[+-]\d{2}:?\d{2})\s*$/i.test(text.trim()),
  );
  if (open.length === 0) return zone;
  const answer = doubts.ask({
    code: 'time-zone',
    sentence: `Times such as "${open[0]?.text}" do not say in which zone they are.`,
    where: open.map(({ where }) => where),
    choices: [
      { answer: 'local', label: `they are local time of the woods (${zone})` },
      { answer: 'utc', label: 'they are UTC, as a satellite receiver keeps it' },
    ],
  });
  return answer === 'utc' ? 'UTC' : zone;
}

function readOne(
  text: string,
  order: Order,
  { zone, now }: { zone: string; now: string },
): ReturnType<DateReader> {
  const reading = readTime(iso(text.trim(), order), zone, now);
  if (reading.ok) return { ok: true, value: reading.value };
  return { ok: false, remedy: reading.remedy };
}

/** Day and month in the order of the calendar's standard; what is written so already stays. */
function iso(text: string, order: Order): string {
  const [, first = '', second = '', year = '', rest = ''] = slashed.exec(text) ?? [];
  const [, spaced, clock] = /^(\d{4}[-/]\d{1,2}[-/]\d{1,2})[T ]+(\d{1,2}:\d{2}.*)$/.exec(text) ?? [];
  if (first === '')
    return spaced === undefined ? text.replaceAll('/', '-') : `${spaced.replaceAll('/', '-')} ${clock}`;
  const [day, month] = order === 'day-first' ? [first, second] : [second, first];
  // Two digits mean this century: logbooks were not kept in the last one.
  const century = year.length === 2 ? `20${year}` : year;
  return `${century}-${month.padStart(2, '0')}-${day.padStart(2, '0')}${rest}`;
}

/** What is asked where no thing of the file says when. */
export function withoutDate(where: readonly string[], now: string, doubts: Doubting): void {
  if (where.length === 0) return;
  doubts.ask({
    code: 'no-date',
    sentence: `Nothing says when ${where.length === 1 ? where[0] : `${where.length.toLocaleString('en-US')} things`} happened. Give a time with --at, or take this moment.`,
    where,
    choices: [{ answer: 'now', label: `they happened now, ${now.slice(0, 16).replace('T', ' ')}` }],
  });
}
