// An invented logbook of any length: group after group is laid out, marked, felled, checked and closed, with now
// and then a change of mind, an amended entry and one that is struck.
import { createHash } from 'node:crypto';
import { type EventType, type JsonObject, kinds, type Typing, typeBody } from '../../src/events/index.ts';
import { type Envelope, seal, writeEntry } from '../../src/log/entry/index.ts';
import type { Incoming, SealedRow } from '../../src/log/store/index.ts';
import { deviceA, deviceB, idOf, person } from '../log/invented.ts';

const start = Date.parse('2026-01-05T13:00:00Z');
const secondsApart = 40;
const stemsOfGroup = 30;

/** The first `count` entries, ready to append. */
export function woods(count: number): Incoming[] {
  const entries: Incoming[] = [];
  for (const told of story()) {
    if (entries.length === count) break;
    entries.push(entryOf(told, entries.length));
  }
  return entries;
}

/**
 * A group whose stems can be planned: measured, five metres apart in rows of four, leaning a little to different sides.
 * @param from how many entries are there before it
 */
export function groupToPlan(label: string, stems: number, from: number): Incoming[] {
  const group = idOf(from, 'group');
  const told: Told[] = [{ type: 'group-laid-out', about: { group, label } }];
  for (let index = 0; index < stems; index += 1)
    told.push({
      type: 'stem-marked',
      about: {
        stem: idOf(from + index, 'stem'),
        group,
        tag: `${label}${index + 1}`,
        mark: 'cut',
        dbh: { text: '35 cm', value: '35', unit: 'cm' },
        height: { text: '20 m', value: '20', unit: 'm' },
        crownRadius: { text: '2.5 m', value: '2.5', unit: 'm' },
        lean: {
          offset: { text: '0.4 m', value: '0.4', unit: 'm' },
          azimuth: {
            text: `${(index * 75) % 360} true`,
            value: String((index * 75) % 360),
            reference: 'true',
          },
        },
        position: {
          how: 'grid',
          crs: 'EPSG:32119',
          easting: String(360_000 + 5 * (index % 4)),
          northing: String(250_000 + 5 * Math.floor(index / 4)),
        },
      },
    });
  return told.map((one, index) => entryOf(one, from + index));
}

/** An entry: its kind's example, with what it is about put in. An amendment has no example that is whole. */
type Told = Readonly<{ type: EventType; about: JsonObject }>;

function entryOf({ type, about }: Told, position: number): Incoming {
  const { body, sealed } = type === 'entry-amended' ? { body: {}, sealed: [] } : exampleOf(type);
  const time = timeOf(position);
  const envelope: Envelope = {
    id: idOf(position),
    type,
    v: kinds[type].v,
    happenedAt: { at: time, precision: 'instant' },
    recordedAt: time,
    by: person,
    device: position % 5 === 4 ? deviceB : deviceA,
    seq: position + 1,
    ...(sealed.length > 0 ? { sealed: sealed.map(({ hash }) => hash) } : {}),
    body: { ...body, ...about },
  };
  return { bytes: writeEntry(envelope), sealed };
}

function timeOf(position: number): string {
  return new Date(start + position * secondsApart * 1000).toISOString();
}

type Example = Readonly<{ body: JsonObject; sealed: SealedRow[] }>;
const examples = new Map<EventType, Example>();

/** The example of a kind as it is stored; who and what it is about is filled in by the story. */
function exampleOf(type: EventType): Example {
  const known = examples.get(type);
  if (known) return known;
  const sealed: SealedRow[] = [];
  const typing: Typing = {
    units: 'us',
    zone: 'America/New_York',
    now: '2026-01-05T08:00:00.000-05:00',
    find: () => ({ ok: true, value: person }),
    findEntry: () => ({ ok: true, value: person }),
    newIdentity: () => person,
    seal: (_field, text) => {
      const [salt, bytes] = [new Uint8Array(16), Buffer.from(text)];
      const hash = seal(bytes, salt, (data) => createHash('sha256').update(data).digest());
      sealed.push({ hash, salt, bytes, mediaType: 'text/plain' });
      return { ok: true, value: hash };
    },
  };
  const typed = typeBody(kinds[type], kinds[type].example, typing);
  if (!typed.ok) throw new Error(`The example of ${type} is refused: ${JSON.stringify(typed.problems)}`);
  const example = { body: typed.body, sealed };
  examples.set(type, example);
  return example;
}

/** What happens, without end. */
function* story(): Generator<Told> {
  const block = idOf(0, 'block');
  yield { type: 'logbook-opened', about: {} };
  yield { type: 'person-named', about: { person } };
  yield { type: 'block-laid-out', about: { block } };
  let position = 3;
  for (let number = 1; ; number += 1) {
    for (const told of groupOf(number, block, position)) {
      position += 1;
      yield told;
    }
  }
}

/** A group from its laying out to its closing; its first entry takes `position`, which is the seed of its id. */
function groupOf(number: number, block: string, position: number): Told[] {
  const group = idOf(number, 'group');
  const sapling = idOf(number, 'sapling');
  const told: Told[] = [
    { type: 'group-laid-out', about: { group, block, label: `G${number}` } },
    { type: 'sapling-protected', about: { sapling, group, label: `s${number}` } },
  ];
  const lastId = (): string => idOf(position + told.length - 1);
  for (let index = 0; index < stemsOfGroup; index += 1) {
    const stemNumber = number * stemsOfGroup + index;
    const stem = idOf(stemNumber, 'stem');
    const mark = index % 3 === 0 ? 'leave' : 'cut';
    const marked = { stem, group, tag: `A${stemNumber}`, mark };
    told.push({ type: 'stem-marked', about: marked });
    if (index === 1) {
      const corrected = {
        type: 'stem-marked',
        v: kinds['stem-marked'].v,
        happenedAt: { at: timeOf(position + told.length - 1), precision: 'instant' },
        body: { ...exampleOf('stem-marked').body, ...marked, tag: `B${stemNumber}` },
      };
      told.push({
        type: 'entry-amended',
        about: { replaces: lastId(), ...corrected, reason: 'tag misread' },
      });
    }
    if (index % 10 === 5) told.push({ type: 'stem-measured', about: { stem } });
    if (index === 9) told.push({ type: 'mark-changed', about: { stem, mark: 'cut' } });
    if (mark === 'cut') told.push(...fellingOf(stem, index));
    if (index === 8) told.push({ type: 'entry-struck', about: { strikes: lastId() } });
  }
  told.push({ type: 'sapling-checked', about: { sapling } }, { type: 'opening-closed', about: { group } });
  return told;
}

function fellingOf(stem: string, index: number): Told[] {
  const felled: Told = { type: 'stem-felled', about: { stem } };
  return index % 4 === 1 ? [felled, { type: 'decay-measured', about: { stem } }] : [felled];
}
