// One sentence per entry, for the log, the replay and the report.
import { type Body, type Event, type EventType, type QuantityEntered, speciesName } from '../events/index.ts';
import { ruleName } from '../measure/index.ts';
import type { PositionEntered } from '../place/index.ts';
import { hazardWords } from './dangers.ts';
import { timeText } from './entry.ts';
import {
  counted,
  groupLabel,
  hazardLabel,
  saplingLabel,
  shortId,
  stemLabel,
  withUnit,
  words,
} from './labels.ts';
import { positionWords } from './position-words.ts';
import type { Stand } from './state.ts';

/** Names and contacts of people by the hash that their entry holds; erased ones are missing. */
export type Names = ReadonlyMap<string, string>;

/** The number of an entry in the log, by its id; undefined when it is not here. */
export type EntryNumbers = (id: string) => number | undefined;

/**
 * What an event says, in words, with the labels that things carry in `stand`.
 * @param numbers lets a correction name what it corrects by its number; without them it is "an entry"
 */
export function describe(
  event: Event,
  stand: Stand,
  names: Names = new Map(),
  numbers?: EntryNumbers,
): string {
  const say = sayings[event.type] as Say<EventType>;
  return say(event.body, labelsIn(stand, names, numbers))
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
}

/** What things are called, by their ids. */
type Labels = Readonly<{
  stem: (id: string | undefined) => string;
  /** A stem by the tag that it was given at the time, and the one it has now. */
  stemThen: (id: string, tag: string | undefined) => string;
  /** A stem by its tag, also when that is lost. */
  stemOfTag: (id: string) => string;
  /** The tag that a stem had before this one. */
  tagBefore: (id: string, tag: string) => string | undefined;
  group: (id: string | undefined) => string;
  block: (id: string | undefined) => string;
  sapling: (id: string | undefined) => string;
  patch: (id: string | undefined) => string;
  hazard: (id: string) => string;
  person: (id: string, name: string) => string;
  /** A person by the name that was recorded last. */
  somebody: (id: string) => string;
  device: (id: string) => string;
  /** Where, as it was entered. */
  place: (entered: PositionEntered) => string;
  entry: (id: string) => string;
}>;

function labelsIn(stand: Stand, names: Names, numbers: EntryNumbers | undefined): Labels {
  return {
    stem: (id) => stemLabel(id === undefined ? undefined : stand.stems.get(id)),
    stemThen: (id, tag) => {
      const stem = stand.stems.get(id);
      if (tag === undefined) return stemLabel(stem);
      return stem?.tag === undefined || sameTag(stem.tag, tag) ? tag : `${tag} (now ${stem.tag})`;
    },
    stemOfTag: (id) => stand.stems.get(id)?.tag ?? stemLabel(stand.stems.get(id)),
    tagBefore: (id, tag) => {
      const stem = stand.stems.get(id);
      const tags = stem === undefined ? [] : [...stem.earlierTags, stem.tag ?? ''];
      return tags[tags.findLastIndex((one) => sameTag(one, tag)) - 1];
    },
    group: (id) => groupLabel(id === undefined ? undefined : stand.groups.get(id)),
    block: (id) => (id === undefined ? '' : (stand.blocks.get(id)?.name ?? 'an unknown block')),
    sapling: (id) => saplingLabel(id === undefined ? undefined : stand.saplings.get(id)),
    patch: (id) => saplingLabel(id === undefined ? undefined : stand.patches.get(id)),
    hazard: (id) => {
      const hazard = stand.hazards.get(id);
      if (hazard === undefined) return 'unknown hazard';
      return hazard.stem === undefined ? hazardWords(stand, hazard) : hazardLabel(stand, hazard);
    },
    person: (id, name) =>
      names.get(name) ?? `somebody (${stand.people.get(id)?.erased ? 'name erased' : 'name not here'})`,
    somebody: (id) => names.get(stand.people.get(id)?.name ?? '') ?? 'somebody',
    device: (id) => stand.devices.get(id)?.label ?? `a device (${shortId(id)})`,
    place: (entered) => positionWords(stand, entered),
    entry: (id) => {
      if (numbers === undefined) return 'an entry';
      const number = numbers(id);
      return number === undefined ? 'an entry that is not here yet' : `entry ${number}`;
    },
  };
}

/** Tags are compared without regard to capitals, as they are when they are typed. */
function sameTag(one: string, other: string): boolean {
  return one.toLowerCase() === other.toLowerCase();
}

/** The parts of one sentence; those that are missing or empty are left out. */
type Say<T extends EventType> = (body: Body<T>, of: Labels) => (string | undefined)[];

/** One saying per kind. */
const sayings: { readonly [T in EventType]: Say<T> } = {
  'logbook-opened': ({ name, zone, crs, units }) => [
    `logbook of ${name}`,
    zone,
    crs,
    units === 'us' ? 'US customary units' : 'metric units',
  ],
  'person-named': ({ person, name, part }, of) => [`named ${of.person(person, name)}`, part],
  'personal-data-erased': ({ reason }) => ['personal data erased', reason],
  'device-paired': ({ label, publicKey, person }, of) => [
    `${label} paired for ${of.somebody(person)}`,
    publicKey === undefined ? 'without a key' : 'signs its entries',
  ],
  'device-revoked': ({ device, reason }, of) => [`${of.device(device)} revoked`, reason],
  'block-laid-out': ({ name, area, boundary }) => [
    `block ${name}`,
    written('area', area),
    boundary && `${boundary.length} corners`,
  ],
  'prescription-set': ({ block, objective, source }, of) => [
    `prescription for ${of.block(block)}`,
    objective,
    source,
  ],
  'tally-scope-set': ({ block, coverage, floor }, of) => [
    `tally of ${of.block(block)} is ${coverage}`,
    written('floor', floor),
  ],
  'stake-set': ({ label, what }) => [`stake ${label}`, what],
  'boundary-evidence-noted': ({ block, corner, line, evidence, note }, of) => [
    `boundary of ${of.block(block)}`,
    corner === undefined ? (line === undefined ? 'all round' : `line ${line}`) : `corner ${corner}`,
    words(evidence),
    note,
  ],
  'feature-mapped': ({ label, what, width, note }) => [
    `${words(what)} ${label}`,
    written('width', width),
    note,
  ],
  'neighbour-consent-noted': ({ block, line, stems = [], agreed }, of) => [
    `neighbour consents${stems.length === 0 ? '' : ` to ${stems.map(of.stem).join(', ')}`}`,
    block && `at ${line === undefined ? 'the lines' : `line ${line}`} of ${of.block(block)}`,
    agreed,
  ],
  'group-laid-out': ({ label, reason }) => [`group ${label}`, reason],
  'group-widened': ({ group, reason }, of) => [`${of.group(group)} widened`, reason],
  'opening-measured': ({ group, method, note }, of) => [
    `opening of ${of.group(group)} measured by ${words(method)}`,
    note,
  ],
  'opening-closed': ({ group, slash, note }, of) => [
    `opening of ${of.group(group)} closed`,
    slash && `slash ${slash}`,
    note,
  ],
  'opening-reopened': ({ group, reason }, of) => [`opening of ${of.group(group)} reopened`, reason],
  'stem-marked': ({ stem, tag, mark, species, dbh, purpose, reason }, of) => [
    `${of.stemThen(stem, tag)} marked to ${mark === 'cut' ? 'be cut' : 'stay'}`,
    species && speciesName(species),
    written('DBH', dbh),
    purpose,
    reason,
  ],
  'mark-changed': ({ stem, mark, purpose, reason }, of) => [
    `${of.stem(stem)} is now to ${mark === 'cut' ? 'be cut' : 'stay'}`,
    purpose,
    reason,
  ],
  'stem-measured': ({ stem, dbh, height }, of) => [
    `${of.stem(stem)} measured again`,
    written('DBH', dbh),
    written('height', height),
  ],
  'tag-lost': ({ stem, note }, of) => [`tag of ${of.stemOfTag(stem)} lost`, note],
  'tag-replaced': ({ stem, tag }, of) => {
    const before = of.tagBefore(stem, tag);
    return [before === undefined ? `tag ${tag} put on` : `tag of ${before} replaced by ${tag}`];
  },
  'stem-felled': ({ stem, came, hungOn, lay, asAimed, differed }, of) => [
    `${of.stem(stem)} felled, ${came === 'down' ? 'down' : `hung up in ${hungOn === undefined ? 'another tree' : of.stem(hungOn)}`}`,
    lay === undefined ? `lay not measured${asAimed === true ? ', by eye as aimed' : ''}` : `lay ${lay.text}`,
    differed,
  ],
  'hang-up-cleared': ({ stem, how }, of) => [`${of.stem(stem)} brought down`, how],
  'stem-found-down': ({ stem, cause }, of) => [`${of.stem(stem)} found down`, cause],
  'stem-found-dead': ({ stem, note }, of) => [`${of.stem(stem)} found dead`, note],
  'decay-measured': ({ stem, found, upTheButt, diameter, shell }, of) => [
    `stump of ${of.stem(stem)}: ${found === 'none' ? 'looked, no decay' : found}`,
    written('up the butt', upTheButt),
    written('across', diameter),
    written('shell', shell),
  ],
  'stump-audited': ({ stem, tag, group, diameterOutside, diameterInside, markSeen, note }, of) => [
    stem === undefined
      ? tag === undefined
        ? 'stump without a tag'
        : `stump with tag ${tag}`
      : `stump of ${of.stem(stem)}`,
    group && `in ${of.group(group)}`,
    written('outside bark', diameterOutside),
    written('inside bark', diameterInside),
    markSeen === undefined ? undefined : markSeen ? 'mark seen' : 'no mark seen',
    note,
  ],
  'plot-tallied': ({ block, plot, method, plotRadius, factor, trees = [] }, of) => [
    `plot ${plot}${block === undefined ? '' : ` in ${of.block(block)}`}`,
    method === 'angle-gauge' ? written('angle gauge', factor) : written('radius', plotRadius),
    counted(trees.filter(({ is }) => is !== 'out').length, 'tree'),
  ],
  'regeneration-counted': ({ block, group, plot, counts = [] }, of) => [
    `regeneration plot ${plot} in ${group === undefined ? of.block(block) : of.group(group)}`,
    counted(
      counts.reduce((sum, row) => sum + row.count, 0),
      'young tree',
    ),
  ],
  'felling-plan-adopted': ({ group, steps, aside = [] }, of) => [
    `felling plan for ${of.group(group)}`,
    steps.map(({ stem }) => of.stem(stem)).join(', '),
    aside.length === 0 ? undefined : `${aside.map((stem) => of.stem(stem)).join(', ')} set aside`,
  ],
  'felling-default-set': ({ person, assumption, value, belowFloor, reason }, of) => [
    `felling plans of ${of.somebody(person)}: ${assumption} is ${value}`,
    belowFloor === true ? 'below the floor, as meant' : undefined,
    reason,
  ],
  'wind-noted': ({ wind, comesFrom, group, note }, of) => [
    `wind ${wind.text}`,
    comesFrom && `from ${comesFrom.text}`,
    group && `at ${of.group(group)}`,
    note,
  ],
  'prices-set': ({ rule, unit, currency, date, buyerClass, rows }) => [
    `prices of ${date}`,
    buyerClass,
    `${counted(rows.length, 'price')} in ${currency} per ${unit}`,
    ruleName(rule),
  ],
  'sapling-protected': ({ sapling, species, height }, of) => [
    `${of.sapling(sapling)} protected`,
    species && speciesName(species),
    written('height', height),
  ],
  'patch-protected': ({ patch, species }, of) => [
    `patch ${of.patch(patch)} protected`,
    species && speciesName(species),
  ],
  'sapling-checked': ({ sapling, patch, condition, byStem, note }, of) => [
    `${sapling === undefined ? of.patch(patch) : of.sapling(sapling)} ${words(condition)}`,
    byStem && `by ${of.stem(byStem)}`,
    note,
  ],
  'hazard-noted': ({ what, stem, group, radius, note }, of) => [
    `hazard: ${words(what)}`,
    stem && `at ${of.stem(stem)}`,
    group && `in ${of.group(group)}`,
    written('keep away', radius),
    note,
  ],
  'hazard-cleared': ({ hazard, how }, of) => [`hazard cleared: ${of.hazard(hazard)}`, how],
  'damage-noted': ({ to, stem, sapling, woundArea, byStem, what }, of) => [
    `damage to ${harmed(of, to, stem, sapling)}`,
    written('wound', woundArea),
    byStem && `by ${of.stem(byStem)}`,
    what,
  ],
  'emergency-card-set': ({ block, accessPoint, wayIn, callFirst, nearestHelp, signal }, of) => [
    block === undefined ? 'emergency card' : `emergency card of ${of.block(block)}`,
    accessPoint && `help is met ${of.place(accessPoint)}`,
    wayIn,
    callFirst && `call ${callFirst} first`,
    nearestHelp,
    signal && `telephone ${signal}`,
  ],
  // Sentences stand in reports that leave the house: whom to call, by name and number, stands on the card alone.
  'call-expected': ({ due, person }, of) => [
    `call expected${person === undefined ? '' : ` from ${of.somebody(person)}`} by ${timeText(due)}`,
  ],
  'call-made': ({ person, note }, of) => [
    person === undefined ? 'call made' : `${of.somebody(person)} was heard from`,
    note,
  ],
  'emergency-contacts-erased': ({ reason }) => ['emergency contacts erased', reason],
  'note-written': ({ text }) => [text],
  'photo-taken': ({ of: shows }) => ['photo', shows],
  'clock-offset-noted': ({ ahead }) => [`clock of a device found ${aheadOrBehind(ahead)}`],
  'import-made': ({ file, entries, as }) => [`${file} brought in as ${as}`, `${entries} entries`],
  'report-issued': ({ report, size, to }) => [`report "${report}" issued`, `log of ${size} entries`, to],
  'entry-amended': ({ replaces, reason }, of) => [`${of.entry(replaces)} amended`, reason],
  'entry-struck': ({ strikes, reason }, of) => [`${of.entry(strikes)} struck`, reason],
};

function harmed(of: Labels, to: string, stem: string | undefined, sapling: string | undefined): string {
  if (stem !== undefined) return of.stem(stem);
  return sapling === undefined ? words(to) : of.sapling(sapling);
}

function aheadOrBehind(ahead: QuantityEntered): string {
  const text = withUnit(ahead);
  return ahead.value.startsWith('-') ? `${text.replace(/^\s*[-\u2212]\s*/, '')} behind` : `${text} ahead`;
}

function written(what: string, quantity: QuantityEntered | undefined): string | undefined {
  return quantity === undefined ? undefined : `${what} ${withUnit(quantity)}`;
}
