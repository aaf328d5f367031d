// The fold is total: bodies of every kind, made from the kinds' own schemas, in any order and with whatever
// they contradict, never make it throw, nor what looks at the stand afterwards.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  bodySchema,
  type EventType,
  type JsonObject,
  kinds,
  kindTypes,
  parseBody,
} from '../../src/events/index.ts';
import {
  describe as describeEvent,
  fold,
  hazardWords,
  type LogEntry,
  locate,
  openFindings,
  openIn,
  versionsOf,
  viewGroup,
} from '../../src/stand/index.ts';
import { device, uuid } from './entries.ts';

type Schema = Readonly<{
  type?: string;
  const?: unknown;
  enum?: readonly unknown[];
  anyOf?: readonly Schema[];
  oneOf?: readonly Schema[];
  allOf?: readonly Schema[];
  format?: string;
  pattern?: string;
  properties?: Readonly<Record<string, Schema>>;
  required?: readonly string[];
  items?: Schema;
  minItems?: number;
}>;

/** Few ids, so that entries meet: of things, and of the entries themselves. */
const ids = fc.oneof(
  fc.integer({ min: 1, max: 25 }).map(uuid),
  fc.integer({ min: 1, max: 4 }).map((number) => uuid(0x51_0000 + number)),
);
const times = fc.constantFrom(
  '2026-03-02T09:00:00-05:00',
  '2026-03-02T14:00:00Z',
  '2026-03-03T00:00:00-05:00',
  '0001-01-01T00:00:00Z',
  '9999-12-31T23:59:59.999999999+23:59',
);
const decimals = fc.constantFrom('0', '-0', '1', '14.2', '-90', '360', '999999999999.999999999999');

/** Values that a JSON Schema allows, as far as the kinds use it. */
function valuesOf(schema: Schema): fc.Arbitrary<unknown> {
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices !== undefined) return fc.oneof(...choices.map(valuesOf));
  if (schema.format === 'uuid') return ids;
  switch (schema.type) {
    case 'object':
      return objectOf(schema);
    case 'array':
      return fc.array(valuesOf(schema.items ?? {}), { minLength: schema.minItems ?? 0, maxLength: 4 });
    case 'string':
      return textOf(schema.pattern);
    case 'integer':
      return fc.constantFrom(0, 1, 99, 1_000_000);
    case 'boolean':
      return fc.boolean();
    default:
      return bodies;
  }
}

function objectOf({ properties = {}, required = [] }: Schema): fc.Arbitrary<unknown> {
  const members = Object.entries(properties).map(([name, member]) => [name, valuesOf(member)]);
  return fc.record(Object.fromEntries(members) as Record<string, fc.Arbitrary<unknown>>, {
    requiredKeys: [...required],
  });
}

function textOf(pattern: string | undefined): fc.Arbitrary<string> {
  if (pattern === undefined) {
    return fc.oneof(
      fc.constantFrom(
        'A1',
        'a1',
        'UTC',
        '__proto__',
        'constructor',
        'stem-marked',
        'note-written',
        'entry-struck',
      ),
      fc.string({ minLength: 1, maxLength: 12 }),
    );
  }
  if (pattern.startsWith('^\\d{4}-')) return times;
  if (pattern.startsWith('^-?\\d')) return decimals;
  return fc.stringMatching(new RegExp(pattern));
}

/** The body within an amendment: of a mark, so that some of them fit. */
const bodies: fc.Arbitrary<unknown> = fc.record({ stem: ids, mark: fc.constantFrom('cut', 'leave') });

/** Parts that exclude each other would hardly ever be left out all but one by chance: only the first of them is kept. */
function fitted(type: EventType, body: JsonObject): JsonObject {
  if (type === 'feature-mapped') {
    const {
      point,
      line,
      edge,
      streamOrder: _order,
      perennial: _perennial,
      roadClass: _class,
      ...rest
    } = body;
    const shape = line === undefined ? (edge === undefined ? { point } : { edge }) : { line };
    return Object.values(shape)[0] === undefined
      ? { ...rest, point: { how: 'unknown' } }
      : ({ ...rest, ...shape } as JsonObject);
  }
  if (type === 'opening-measured') {
    const { group, center, longest, across, edgeHeight } = body;
    const measured = { group, center, longest, across, edgeHeight, method: 'two-diameters' };
    return Object.fromEntries(
      Object.entries(measured).filter(([, value]) => value !== undefined),
    ) as JsonObject;
  }
  return body;
}

/** Every kind, with bodies that can be parsed. */
const contents = fc
  .oneof(
    ...kindTypes.map((type) => ({
      // Corrections are what the stand is hardest to hold against; two of them must meet now and then.
      weight: type === 'entry-amended' ? 4 : 1,
      arbitrary: valuesOf(bodySchema(kinds[type])).map((body) => ({
        type,
        body: fitted(type, body as JsonObject),
      })),
    })),
  )
  .filter(({ type, body }) => parseBody(type, kinds[type].v, body).ok);

const entry: fc.Arbitrary<LogEntry> = fc
  .record({
    content: contents,
    id: fc.integer({ min: 1, max: 25 }),
    at: times,
    precision: fc.constantFrom('instant' as const, 'minute' as const, 'day' as const),
    recordedAt: times,
    on: fc.constantFrom(device.a, device.b),
    seq: fc.integer({ min: 1, max: 9 }),
    v: fc.constantFrom(1, 1, 1, 1, 99),
  })
  .map(({ content, id, at, precision, recordedAt, on, seq, v }) => ({
    ...content,
    v,
    id: uuid(id),
    happenedAt: { at, precision },
    recordedAt,
    by: uuid(1),
    device: on,
    seq,
  }));

/** Every other amendment is aimed at one of two entries of its log, so that some fit and some are rivals. */
function aimed(log: readonly LogEntry[]): LogEntry[] {
  return log.map((amendment) => {
    const target = log[amendment.seq % 4];
    if (amendment.type !== 'entry-amended' || amendment.seq % 2 === 0 || target === undefined)
      return amendment;
    const { type, body } = target;
    return { ...amendment, body: { ...amendment.body, replaces: target.id, type, v: 1, body } };
  });
}

it('never throws, whatever is parsed, nor does what looks at the stand afterwards', () => {
  const met = new Set<string>();
  fc.assert(
    fc.property(fc.array(entry, { minLength: 1, maxLength: 25, size: 'max' }).map(aimed), (log) => {
      const folded = fold(log);
      const { stand, findings, happenings } = folded;
      for (const { event } of happenings) {
        met.add(event.type);
        expect(describeEvent(event, stand)).not.toBe('');
      }
      for (const finding of findings) met.add(finding.code);
      for (const hazard of stand.hazards.values()) expect(hazardWords(stand, hazard)).not.toBe('');
      for (const { id } of log) expect(versionsOf(id, folded).length).toBeGreaterThan(0);
      const where = locate(stand);
      for (const [id, { position }] of stand.stems) expect(where.stem(id)).toEqual(where.resolve(position));
      for (const { boundary } of stand.blocks.values())
        if (boundary) expect(where.ring(boundary, '2026-03-02T09:00:00Z').ring.length).toBeLessThan(5);
      for (const group of stand.groups.values()) {
        const view = viewGroup(stand, findings, group);
        expect(view.openFindings.length).toBeLessThanOrEqual(view.findings.length);
        expect(openIn(stand, group.id).standing.length).toBeLessThanOrEqual(view.stems.length);
      }
      expect(openFindings(findings).length).toBeLessThanOrEqual(findings.length);
    }),
    { numRuns: 500, seed: 20260302 },
  );
  // Corrections are resolved before folding and so do not happen themselves.
  const happening = kindTypes.filter((type) => type !== 'entry-amended' && type !== 'entry-struck');
  expect(happening.filter((type) => !met.has(type))).toEqual([]);
  expect([...met]).toEqual(expect.arrayContaining(['amended-entry', 'struck-entry', 'two-corrections']));
});
