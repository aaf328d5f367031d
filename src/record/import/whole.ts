// What is doubted of all entries together, against the logbook: tags that come twice, places that are shared, far away or
// crowded, times still to come, sizes that no tree has, and a file that was brought in before.
import { polygonContains } from 'd3-polygon';
import type { Event } from '../../events/index.ts';
import { distanceAndAzimuth, distanceToRing, isUnresolved, type LonLat } from '../../place/index.ts';
import { type Folded, fold, instantOf, type Locator, type LogEntry } from '../../stand/index.ts';
import { crowdingQuestions } from '../crowding.ts';
import { aboutSizes } from '../sizes.ts';
import { asWritten, type Doubting, others } from './doubt.ts';

/** An entry that would be appended. */
export type Made = Readonly<{
  where: string;
  event: Event;
  happenedAt: LogEntry['happenedAt'];
  /** As it would be folded, with no place in the log yet. */
  entry: LogEntry;
  /** Its corners, or where it is, resolved from coordinates. */
  at: readonly LonLat[];
}>;

export function askedBefore(sha256: string, { happenings }: Folded, doubts: Doubting): void {
  const before = happenings.find(({ event }) => event.type === 'import-made' && event.body.sha256 === sha256);
  if (before === undefined) return;
  doubts.ask({
    code: 'imported-before',
    sentence: `This very file was brought in before, by entry ${before.entry.position}, ${before.entry.recordedAt.slice(0, 10)}.`,
    where: ['file'],
    choices: [{ answer: 'again', label: 'bring it in once more' }],
  });
}

/** Tags and labels that come twice, in the file or with those of the logbook. Gives what is left to be appended. */
export function settleLabels(made: readonly Made[], { stand }: Folded, doubts: Doubting): Made[] {
  const inFile = new Set<string>();
  const twice = made.filter((one) => {
    const key = keyOf(one.event);
    if (key === undefined) return false;
    const again = inFile.has(key);
    inFile.add(key);
    return again;
  });
  const inUse = new Set([
    ...[...stand.tags].flatMap(([tag, stems]) =>
      [...stems].length > 0 ? [`stem ${tag.toLowerCase()}`] : [],
    ),
    ...[...stand.stakes.values()].map(({ label }) => `stake ${label.toLowerCase()}`),
    ...[...stand.blocks.values()].map(({ name }) => `block ${name.toLowerCase()}`),
  ]);
  const there = made.filter(({ event }) => inUse.has(keyOf(event) ?? ''));
  const without = new Set([
    ...leftOut('duplicate-tags', 'comes more than once in the file', twice, doubts),
    ...leftOut('tag-in-use', 'is in the logbook already', there, doubts),
  ]);
  const stems = new Set(
    [...without].flatMap(({ event }) => (event.type === 'stem-marked' ? [event.body.stem] : [])),
  );
  return made.filter((one) => !without.has(one) && !isNoteOf(one.event, stems));
}

function leftOut(code: string, what: string, found: readonly Made[], doubts: Doubting): readonly Made[] {
  const [one] = found;
  if (one === undefined) return [];
  const where = found.map((made) => made.where);
  const answer = doubts.ask({
    code,
    sentence: `${one.where}: the tag or label "${labelOf(one.event)}" ${what}.${others(where)}`,
    where,
    choices: [
      { answer: 'keep-both', label: 'they are different things: keep both' },
      {
        answer: 'leave-out',
        label:
          code === 'tag-in-use' ? 'they are the same: leave those of the file out' : 'keep the first of each',
      },
    ],
  });
  return answer === 'leave-out' ? found : [];
}

function isNoteOf(event: Event, stems: ReadonlySet<string>): boolean {
  return event.type === 'note-written' && event.body.stem !== undefined && stems.has(event.body.stem);
}

function labelOf(event: Event): string | undefined {
  if (event.type === 'stem-marked') return event.body.tag;
  if (event.type === 'stake-set') return event.body.label;
  return event.type === 'block-laid-out' ? event.body.name : undefined;
}

function keyOf(event: Event): string | undefined {
  const label = labelOf(event)?.trim().toLowerCase();
  return label === undefined
    ? undefined
    : `${event.type === 'stem-marked' ? 'stem' : event.type === 'stake-set' ? 'stake' : 'block'} ${label}`;
}

/** Everything about places, times and sizes. */
export function askAboutAll(
  made: readonly Made[],
  { folded, locator, now }: { folded: Folded; locator: Locator; now: number },
  doubts: Doubting,
): void {
  sharedPlaces(made, doubts);
  outsideBlock(made, folded, locator, doubts);
  shifted(made, folded, locator, doubts);
  toCome(made, now, doubts);
  sizes(made, folded, doubts);
  crowded(made, folded, doubts);
}

function sharedPlaces(made: readonly Made[], doubts: Doubting): void {
  const seen = new Map<string, string>();
  const again = made.filter(({ at: [at], at: { length }, where }) => {
    if (at === undefined || length > 1) return false;
    const key = `${at.lon} ${at.lat}`;
    const before = seen.get(key);
    seen.set(key, before ?? where);
    return before !== undefined;
  });
  const [one] = again;
  const at = one?.at[0];
  if (one === undefined || at === undefined) return;
  const where = again.map((each) => each.where);
  doubts.ask({
    code: 'identical-positions',
    sentence: `${seen.get(`${at.lon} ${at.lat}`)} and ${one.where} have exactly the same position.${others(where)}`,
    where,
    choices: [asWritten('they stand at one place, or were entered with one fix')],
  });
}

/** Beyond this a point is outside, whatever the error of a fix under a canopy, metres. Source: field tests of receivers under canopy give 3 to 8 m. */
const margin = 10;

function outsideBlock(made: readonly Made[], { stand }: Folded, locator: Locator, doubts: Doubting): void {
  const rings = new Map(
    [...stand.blocks.values()].flatMap(({ id, name, boundary }) => {
      const { ring } = boundary === undefined ? { ring: [] } : locator.ring(boundary, '');
      return ring.length < 3
        ? []
        : [[id, { name, ring, flat: ring.map(({ lon, lat }): [number, number] => [lon, lat]) }] as const];
    }),
  );
  if (rings.size === 0) return;
  const outside = made.filter(({ event, at: [at] }) => {
    if (at === undefined || event.type === 'feature-mapped' || event.type === 'block-laid-out') return false;
    const body = event.body as { block?: string; group?: string };
    const own = rings.get(body.block ?? stand.groups.get(body.group ?? '')?.block ?? '');
    const held = own === undefined ? [...rings.values()] : [own];
    return held.every(
      ({ flat, ring }) => !polygonContains(flat, [at.lon, at.lat]) && distanceToRing(at, ring) > margin,
    );
  });
  const [one] = outside;
  const at = one?.at[0];
  if (one === undefined || at === undefined) return;
  const away = Math.min(...[...rings.values()].map(({ ring }) => distanceToRing(at, ring)));
  const where = outside.map((each) => each.where);
  doubts.ask({
    code: 'outside-block',
    sentence: `${one.where} lies ${away < 2000 ? `${away.toFixed(0)} m` : `${(away / 1000).toFixed(0)} km`} outside ${[
      ...rings.values(),
    ]
      .map(({ name }) => name)
      .slice(0, 3)
      .join(', ')}.${others(where)} Check the system, the unit and the zone of the coordinates.`,
    where,
    choices: [asWritten('they lie outside')],
  });
}

/** Things that are in the logbook already, all moved the same way: the mark of another datum or of an offset left out. */
function shifted(made: readonly Made[], { stand }: Folded, locator: Locator, doubts: Doubting): void {
  const moves = made.flatMap(({ event, at: [at], where }) => {
    const label = labelOf(event)?.trim().toLowerCase();
    if (at === undefined || label === undefined) return [];
    const known =
      event.type === 'stem-marked'
        ? [...(stand.tags.get(label) ?? [])].map(locator.stem)
        : [...stand.stakes.values()]
            .filter((stake) => stake.label.toLowerCase() === label)
            .map(({ id }) => locator.stake(id));
    const [only] = known;
    if (only === undefined || known.length > 1 || isUnresolved(only)) return [];
    const { metres, azimuthTrue } = distanceAndAzimuth(only.at, at);
    const direction = (azimuthTrue * Math.PI) / 180;
    return [{ where, east: metres * Math.sin(direction), north: metres * Math.cos(direction) }];
  });
  if (moves.length < 3) return;
  const mean = (of: (move: { east: number; north: number }) => number) =>
    moves.reduce((sum, move) => sum + of(move), 0) / moves.length;
  const [east, north] = [mean((move) => move.east), mean((move) => move.north)];
  const away = Math.hypot(east, north);
  const spread = Math.sqrt(mean((move) => (move.east - east) ** 2 + (move.north - north) ** 2));
  if (away < 20 || away > 300 || spread > away / 3) return;
  doubts.ask({
    code: 'datum-offset',
    sentence: `${moves.length} things that are in the logbook stand ${away.toFixed(0)} m from where the file has them, all in one direction. Coordinates on another datum, such as NAD27, look like that.`,
    where: moves.map(({ where }) => where),
    choices: [asWritten('the file is right: both places are kept')],
  });
}

function toCome(made: readonly Made[], now: number, doubts: Doubting): void {
  const later = made.filter(
    ({ happenedAt }) =>
      (happenedAt.precision === 'day' ? Date.parse(happenedAt.at) : instantOf(happenedAt)) > now + 90_000,
  );
  const [one] = later;
  if (one === undefined) return;
  const where = later.map((each) => each.where);
  doubts.ask({
    code: 'date-in-future',
    sentence: `${one.where}: ${one.happenedAt.at} is still to come.${others(where)}`,
    where,
    choices: [asWritten('the time is right')],
  });
}

function sizes(made: readonly Made[], { stand }: Folded, doubts: Doubting): void {
  const asked = made.flatMap(({ event, where }) =>
    aboutSizes(event, stand, false).map(({ sentence }) => ({ where, sentence })),
  );
  const [one] = asked;
  if (one === undefined) return;
  const where = asked.map((each) => each.where);
  doubts.ask({
    code: 'size',
    sentence: `${one.where}: ${one.sentence}${others(where)}`,
    where,
    choices: [asWritten('they were measured so')],
  });
}

function crowded(made: readonly Made[], folded: Folded, doubts: Doubting): void {
  const stems = made.filter(({ event }) => event.type === 'stem-marked');
  if (stems.length === 0) return;
  const ids = stems.flatMap(({ event }) => (event.type === 'stem-marked' ? [event.body.stem] : []));
  const entries = [...folded.entries.values(), ...stems.map(({ entry }) => entry)];
  for (const { sentence } of crowdingQuestions(fold(entries), new Set(ids))) {
    doubts.ask({
      code: 'crowded',
      sentence,
      where: stems.map(({ where }) => where),
      choices: [asWritten('they do stand that close')],
    });
  }
}
