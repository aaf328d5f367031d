// What somebody asks of a plan, as typed on the command line or over HTTP.
import { readAzimuth } from '../../events/index.ts';
import { isUnresolved, type LonLat, toTrueAzimuth } from '../../place/index.ts';
import { findThing, type Group, locate, type Stand } from '../../stand/index.ts';
import { dayOf } from '../adopted/adoption.ts';
import { FellingError } from '../error.ts';
import { type Gathered, gather } from '../gather/index.ts';
import { NOTCH_METHODS, type NotchMethod } from '../stem/hinge.ts';
import { typedWind, windAt } from '../wind.ts';
import { checkFloor, defaultsOf } from './defaults.ts';
import { peopleAt } from './people.ts';
import { type FellingPlan, type PlanAsked, planGroup } from './plan.ts';
import type { Settled } from './settled.ts';

/** As it is typed; several of one kind with semicolons or commas between them. */
export type PlanTyped = Readonly<{
  /** "A12=95 true, A14=180 mag" */
  fix?: string | undefined;
  /** "A12=1, A14=2": places in the order, counted from 1 */
  place?: string | undefined;
  /** "A12=A14": A12 is down before A14 */
  before?: string | undefined;
  /** "A9, A10" */
  last?: string | undefined;
  /** "20 %" and the azimuth of straight down */
  slope?: string | undefined;
  downhill?: string | undefined;
  /** Mean wind: "8 mph", or a bare number of m/s; as noted last that day if left out. */
  wind?: string | undefined;
  wedges?: boolean | undefined;
  winch?: boolean | undefined;
  /** "landing at 135 mag, 400 ft from stake A": where people work or stay; several with semicolons between them */
  people?: string | undefined;
  /** "open face", "conventional" or "humboldt" */
  notch?: string | undefined;
  /** Whether to work out what to measure first; takes longer than the plan. */
  measureNext?: boolean | undefined;
  /** "directionError=8, hangUpLimit=0.2" */
  assume?: string | undefined;
  /** Id of the person who plans and fells by it: what was recorded for them is used, and said. */
  planner?: string | undefined;
}>;

/** All that a plan is computed from, as plain values: where they were put together need not be where the plan is made. */
export type PlanWork = Readonly<{ gathered: Gathered; asked: PlanAsked }>;

/**
 * The plan of a group as somebody asks for it.
 * @param when RFC 3339
 * @throws FellingError naming the field, the value and the remedy
 */
export function planAsked(stand: Stand, group: Group, typed: PlanTyped, when: string): FellingPlan {
  const { gathered, asked } = gatherAsked(stand, group, typed, when);
  return planGroup(gathered, asked);
}

/**
 * What `planAsked` plans, before it is planned. Compass readings are turned as at noon of the day (UTC), so that the same group
 * has the same plan, known by the same hash, all day and on every device.
 * @throws FellingError as `planAsked`, where something of it shows before the planning
 */
export function gatherAsked(stand: Stand, group: Group, typed: PlanTyped, time: string): PlanWork {
  const when = `${dayOf(time)}T12:00:00Z`;
  const stem = (field: string, text: string): string => {
    const found = findThing(stand, 'stem', text, new Map());
    if (!found.ok) throw new FellingError(field, text, `There is no stem ${text}.`, `${found.remedy}.`);
    return found.value;
  };
  const place = placeOf(stand, group);
  const noted = typed.wind === undefined ? windAt(stand, group.id, time) : undefined;
  const gathered = gather(stand, group, when, {
    before: pairs('before', typed.before).map(([one, other]) => [stem('before', one), stem('before', other)]),
    last: list(typed.last).map((text) => stem('last', text)),
    slope: slopeOf(typed, place, when),
    wind: typed.wind === undefined ? noted?.metresPerSecond : typedWind(typed.wind),
    tools: { wedges: typed.wedges === true, winch: typed.winch === true },
    people: peopleAt(stand, typed.people, when),
  });
  const settled: Settled[] = [
    ...pairs('fix', typed.fix).map(([text, aim]) => ({
      stem: stem('fix', text),
      aim: trueAzimuth('fix', aim, gathered.origin, when),
    })),
    ...pairs('place', typed.place).map(([text, at]) => ({
      stem: stem('place', text),
      place: numberOf('place', at, 1, 1000, 'the place in the order, 1 falls first') - 1,
    })),
  ];
  const assumptions = Object.fromEntries(
    pairs('assume', typed.assume).map(([name, value]) => [
      name,
      numberOf('assume', value, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, 'a number'),
    ]),
  );
  const own = defaultsOf(stand, typed.planner);
  checkFloor(assumptions, own);
  return {
    gathered: noted === undefined ? gathered : { ...gathered, restsOn: [...gathered.restsOn, noted.entry] },
    asked: {
      when: time,
      assumptions,
      own,
      settled: together(settled),
      notch: notchOf(typed.notch),
      measureNext: typed.measureNext === true,
    },
  };
}

function notchOf(text: string | undefined): NotchMethod {
  const named = NOTCH_METHODS.find(
    (name) => name === (text ?? 'open face').trim().replace('-', ' ').toLowerCase(),
  );
  if (named === undefined)
    throw new FellingError(
      'notch',
      text ?? '',
      `"${text}" is no kind of notch that is worked out here.`,
      `Take one of: ${NOTCH_METHODS.join(', ')}.`,
    );
  return named;
}

/** What is said as the end of a sentence, as a sentence of its own. */
function asSentence(words: string): string {
  const sentence = words.charAt(0).toUpperCase() + words.slice(1);
  return /[.…]$/.test(sentence) ? sentence : `${sentence}.`;
}

/** Aim and place of one stem belong together. */
function together(settled: readonly Settled[]): Settled[] {
  const byStem = new Map<string, Settled>();
  for (const one of settled) byStem.set(one.stem, { ...byStem.get(one.stem), ...one });
  return [...byStem.values()];
}

function list(text: string | undefined): string[] {
  return (text ?? '')
    .split(/[,;]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

function pairs(field: string, text: string | undefined): [string, string][] {
  return list(text).map((part) => {
    const [one = '', other = '', more] = part.split('=').map((word) => word.trim());
    if (one === '' || other === '' || more !== undefined)
      throw new FellingError(field, part, `"${part}" is no pair.`, 'Write two words with = between them.');
    return [one, other];
  });
}

function numberOf(field: string, text: string, least: number, most: number, what: string): number {
  const value = Number(text.replace(/\s*(?:%|m\/s)$/, ''));
  if (text.trim() === '' || !(value >= least && value <= most))
    throw new FellingError(field, text, `"${text}" is not ${what}.`, `Give ${what}, ${least} to ${most}.`);
  return value;
}

/** Without a place nothing turns a compass reading; the first stem that has one gives it. */
function placeOf(stand: Stand, group: Group): LonLat | undefined {
  const locator = locate(stand);
  for (const { id } of [...stand.stems.values()].filter((stem) => stem.group === group.id)) {
    const place = locator.stem(id);
    if (!isUnresolved(place)) return place.at;
  }
  return undefined;
}

function slopeOf(
  { slope, downhill }: PlanTyped,
  at: LonLat | undefined,
  when: string,
): { percent: number; aspect: number } | undefined {
  if (slope === undefined && downhill === undefined) return undefined;
  if (slope === undefined || downhill === undefined)
    throw new FellingError(
      slope === undefined ? 'slope' : 'downhill',
      '',
      'A slope is told by how steep it is and which way is down.',
      'Give both, such as "20 %" and "210 mag".',
    );
  const percent = numberOf('slope', slope, 0, 200, 'a slope in percent');
  return { percent, aspect: trueAzimuth('downhill', downhill, at, when) };
}

/** An azimuth from true north; a bare number is refused, because nobody knows from which north it is. */
function trueAzimuth(field: string, text: string, at: LonLat | undefined, when: string): number {
  const read = readAzimuth(text);
  if (!read.ok) throw new FellingError(field, text, `"${text}" is no azimuth.`, asSentence(read.remedy));
  if (read.value.reference === 'true') return Number(read.value.value);
  if (at === undefined)
    throw new FellingError(
      field,
      text,
      'No place is known to turn it to true north at.',
      'Give it from true north.',
    );
  const turned = toTrueAzimuth(read.value, at, when, undefined);
  if (isUnresolved(turned)) throw new FellingError(field, text, turned.why, 'Give it from true north.');
  return turned.value;
}
