// From a file to the entries that it would make: read, ask, and show. Nothing is appended here.
import { hash } from 'node:crypto';
import {
  type Event,
  type JsonObject,
  kindOf,
  parseBody,
  type Read,
  type Typing,
  typeBody,
} from '../../events/index.ts';
import type { Happened } from '../../log/entry/index.ts';
import { type Folded, findThing, locate } from '../../stand/index.ts';
import type { Decided } from '../compose.ts';
import { type Desk, timeIn } from '../desk.ts';
import { knownNames } from '../names.ts';
import { readStand } from '../slice.ts';
import { whoDidIt } from '../who.ts';
import { boundaryAsked, datesFor, markAsked, purposeOf, unreadable, whenOf } from './asked.ts';
import { type Doubt, doubting } from './doubt.ts';
import { type FileBytes, readSource } from './formats/index.ts';
import { type Mapping, mappingOf, typedMapping } from './mapping.ts';
import { nearWoods } from './reading/near.ts';
import { type Problem, readThings } from './reading/things.ts';
import { ImportRefusal } from './source.ts';
import { type Draft, draftsOf, type Purpose, shapesFor } from './things.ts';
import { answersOf, keptMapping, onlyWanted, rememberedMapping, setOf } from './typed.ts';
import { askAboutAll, askedBefore, type Made, settleLabels } from './whole.ts';

export type ImportTyped = Readonly<{
  /** What the things of the file are. */
  as?: string | undefined;
  /** Columns by what they are read as: "dbh=dbh_mm mm". */
  columns?: readonly string[] | undefined;
  /** Values that hold for every thing: "mark=leave". */
  set?: readonly string[] | undefined;
  /** Only rows in which a column has this value: "status=alive". */
  only?: readonly string[] | undefined;
  /** The mapping of that name, from an earlier import; or the name to keep this one by. */
  map?: string | undefined;
  /** "lonlat" or an EPSG code. */
  crs?: string | undefined;
  at?: string | undefined;
  by?: string | undefined;
  /** Name of the list that species codes of one's own belong to. */
  ownList?: string | undefined;
  /** "code=answer". */
  answers?: readonly string[] | undefined;
}>;

export type ImportPlan = Readonly<{
  file: string;
  sha256: string;
  format: string;
  as: Purpose | undefined;
  crs: string | undefined;
  /** Doubts without an answer: while there is one, nothing is appended. */
  doubts: readonly Doubt[];
  answered: readonly string[];
  /** Things that could not be read, with the reason. */
  problems: readonly Problem[];
  /** What the file holds that is no part of this import, in sentences. */
  passedOver: readonly string[];
  /** What would be appended, in order; the first says where the rest comes from. */
  entries: readonly Decided[];
  /** How each entry but the first was typed, and where in the file it stands. */
  drafts: readonly Draft[];
  zone: string;
}>;

/**
 * Looks at a file and says which entries it would make, and what is doubted.
 * @throws ImportRefusal when the file or what was typed cannot be read at all
 */
export async function planImport(desk: Desk, file: FileBytes, typed: ImportTyped = {}): Promise<ImportPlan> {
  const source = await readSource(file);
  const folded = await readStand(desk.log);
  const logbook = folded.stand.logbook?.body;
  if (logbook === undefined)
    throw new ImportRefusal('logbook', '', 'has no first entry; start one with "gapledger init"');
  const doubts = doubting(answersOf(typed.answers ?? []));
  const sha256 = hash('sha256', file.bytes, 'hex');
  askedBefore(sha256, folded, doubts);
  const now = timeIn(desk.outside, logbook.zone, desk.outside.now());
  const base = { file: baseName(file.name), sha256, format: source.format, zone: logbook.zone };
  const items = onlyWanted(source, typed.only ?? []);
  const remembered = rememberedMapping(folded, typed.map);
  const mapping: Mapping = {
    ...mappingOf(source.columns),
    ...typedMapping(remembered?.columns ?? [], source.columns),
    ...typedMapping(typed.columns ?? [], source.columns),
  };
  const purpose = purposeOf(typed.as ?? remembered?.as, items, mapping, doubts);
  const empty = {
    ...base,
    as: purpose,
    crs: undefined,
    problems: [],
    passedOver: source.passedOver,
    entries: [],
    drafts: [],
  };
  if (purpose === undefined) return { ...empty, doubts: doubts.open(), answered: doubts.answered() };
  const fitting = items.filter(({ shape }) => shapesFor[purpose].has(shape));
  if (fitting.length === 0) {
    const wanted = [...shapesFor[purpose]].join(' or ');
    throw new ImportRefusal(
      '--as',
      purpose,
      `the file holds nothing for it: no ${wanted}, of ${items.length} things`,
    );
  }
  const names = await knownNames(desk.log, folded);
  const by = whoDidIt(desk, typed.by, folded.stand, names);
  if (!by.ok) throw new ImportRefusal('--by', by.problem.value, by.problem.remedy);
  const fixed = { ...remembered?.set, ...setOf(typed.set ?? []) };
  const locator = locate(folded.stand);
  const read = readThings(
    source,
    fitting,
    {
      mapping,
      crs: typed.crs ?? remembered?.crs,
      working: logbook.crs,
      near: nearWoods(folded, locator),
      units: logbook.units,
      ownList: typed.ownList ?? 'own',
    },
    doubts,
  );
  const given = {
    ...fixed,
    ...markAsked(
      purpose,
      read.things.map(({ item, cells }) => ({ where: item.where, mark: cells.mark })),
      fixed,
      doubts,
    ),
    ...boundaryAsked(
      purpose,
      read.things.map(({ item }) => item.where),
      fixed,
      doubts,
    ),
  };
  const dates = datesFor(
    read.things.map(({ item, cells }) => whenOf(item, cells)),
    { at: typed.at, zone: logbook.zone, now },
    doubts,
  );
  const typing = typingFor(desk, folded, names, { units: logbook.units, zone: logbook.zone, now });
  const problems: Problem[] = [...read.problems];
  const made = read.things.flatMap((thing): (Made & { draft: Draft })[] => {
    const when = dates(whenOf(thing.item, thing.cells).text);
    const drafts = draftsOf(purpose, thing, given, desk.outside.newId);
    const events = drafts.map((draft) => ({ draft, event: eventOf(draft, typing) }));
    const wrong = events.flatMap(({ event }) => ('sentence' in event ? [event.sentence] : []));
    if (!when.ok) wrong.push(`time "${whenOf(thing.item, thing.cells).text}": ${when.remedy}`);
    if (wrong.length > 0 || !when.ok) {
      problems.push({ where: thing.item.where, sentence: wrong.join('; ') });
      return [];
    }
    return events.flatMap(({ draft, event }) =>
      'sentence' in event
        ? []
        : [
            {
              draft,
              event,
              where: draft.where,
              happenedAt: when.value,
              at: thing.at,
              entry: entryOf(event, when.value, desk, by.value),
            },
          ],
    );
  });
  if (problems.length > 0) unreadable(problems, doubts);
  const kept = settleLabels(made, folded, doubts) as typeof made;
  askAboutAll(kept, { folded, locator, now: desk.outside.now() }, doubts);
  const answered = doubts.answered();
  const first: JsonObject = {
    file: base.file.slice(0, 200),
    sha256,
    format: source.format,
    as: purpose,
    entries: kept.length,
    ...(answered.length > 0 ? { answers: answered } : {}),
    ...(typed.map === undefined
      ? {}
      : { mapping: typed.map, columns: keptMapping(mapping, { as: purpose, crs: read.crs, set: given }) }),
  };
  const decide = (type: string, body: JsonObject, happenedAt: Happened): Decided => ({
    type,
    v: kindOf(type)?.v ?? 1,
    body,
    happenedAt,
    by: by.value,
  });
  const entries = [
    decide('import-made', first, { at: now, precision: 'instant' }),
    ...kept.map(({ event, happenedAt }) => decide(event.type, event.body as JsonObject, happenedAt)),
  ];
  const left = items.length - fitting.length;
  const unread = unreadColumns(source.columns, mapping);
  return {
    ...base,
    as: purpose,
    crs: read.crs,
    doubts: doubts.open(),
    answered,
    problems,
    passedOver: [
      ...source.passedOver,
      ...(unread.length > 0 ? [`columns that are not read: ${unread.join(', ').slice(0, 300)}`] : []),
      ...(left > 0 ? [`${left} things of another shape, which are not taken as ${purpose}`] : []),
      ...doubts.unasked().map((answer) => `the answer ${answer}: nothing asked for it`),
    ],
    entries: kept.length === 0 ? [] : entries,
    drafts: kept.map(({ draft }) => draft),
  };
}

function unreadColumns(columns: readonly string[], mapping: Mapping): string[] {
  const read = new Set(Object.values(mapping).flatMap((column) => column.columns));
  return columns.filter((column) => !read.has(column));
}

function typingFor(
  desk: Desk,
  folded: Folded,
  names: ReadonlyMap<string, string>,
  logbook: Pick<Typing, 'units' | 'zone' | 'now'>,
): Typing {
  const found = new Map<string, Read<string>>();
  return {
    ...logbook,
    find: (noun, text) => {
      const key = `${noun} ${text}`;
      const before = found.get(key);
      if (before !== undefined) return before;
      const made = findThing(folded.stand, noun, text, names, folded.entries);
      found.set(key, made);
      return made;
    },
    findEntry: () => ({ ok: false, remedy: 'entries are not named in files that are brought in' }),
    newIdentity: () => desk.outside.newId(),
    seal: () => ({ ok: false, remedy: 'personal data is not brought in from files; record it' }),
  };
}

function eventOf({ kind: type, fields }: Draft, typing: Typing): Event | { sentence: string } {
  const kind = kindOf(type);
  if (kind === undefined) return { sentence: `${type} cannot be recorded here` };
  const typed = typeBody(kind, fields, typing);
  if (!typed.ok)
    return {
      sentence: typed.problems
        .map(({ field, value, remedy }) => `${field}${value === '' ? '' : ` "${value}"`} ${remedy}`)
        .join('; '),
    };
  const reading = parseBody(type, kind.v, typed.body);
  return reading.ok ? reading.event : { sentence: 'cannot be read' };
}

/** As it would be folded; number and id stand for those that it gets when it is appended. */
function entryOf(event: Event, happenedAt: Happened, desk: Desk, by: string): Made['entry'] {
  return {
    id: desk.outside.newId(),
    type: event.type,
    v: kindOf(event.type)?.v ?? 1,
    happenedAt,
    recordedAt: happenedAt.at,
    by,
    device: desk.device,
    seq: 0,
    body: event.body as JsonObject,
  };
}

function baseName(path: string): string {
  return path.split(/[/\\]/).at(-1) ?? path;
}
