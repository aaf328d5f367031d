// Every kind: its example can be typed, its schema is a JSON Schema that says what the reader does,
// a mistyped field gets the nearest one suggested, and old and newer versions are read as promised.
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it, test } from 'vitest';
import {
  bodySchema,
  type EventType,
  type JsonObject,
  type Kind,
  kindOf,
  kinds,
  kindTypes,
  nearestKind,
  parseBody,
  readBody,
  requiredFields,
  typeBody,
  upcast,
} from '../../src/events/index.ts';
import { made, typingIn } from './typing.ts';

/** What the program fills in for these three, so that nobody has to type it. */
const filledIn: Partial<Record<EventType, Readonly<Record<string, unknown>>>> = {
  'clock-offset-noted': { device: made },
  'report-issued': {
    sha256: 'a'.repeat(64),
    root: 'b'.repeat(64),
    size: '214',
    program: 'gapledger 0.1.0',
  },
  'entry-amended': {
    type: 'note-written',
    v: '1',
    body: { text: 'wind from the east' },
    happenedAt: '2026-03-04 09:30',
  },
};

/** Fields that do not go together with the rest of the example; tested further down. */
const excluded: Partial<Record<EventType, readonly string[]>> = {
  'block-laid-out': ['axesAzimuth'],
  'stem-marked': ['purpose'],
  'mark-changed': ['mark'],
  'sapling-checked': ['patch'],
  'stem-felled': ['hungOn'],
  'decay-measured': ['found'],
  'boundary-evidence-noted': ['corner'],
  'feature-mapped': ['point', 'edge', 'roadClass'],
  'opening-measured': ['method', 'spokes', 'edge', 'edgeTrees'],
  'plot-tallied': ['method', 'plotRadius'],
};

/** A logbook in which every label that an example names is known. */
const typing = typingIn('us', { find: () => ({ ok: true, value: made }) });

function typed(type: EventType, change: Readonly<Record<string, unknown>> = {}) {
  return typeBody(kinds[type], { ...ownExample(type), ...filledIn[type], ...change }, typing);
}

/** The example of an amendment names a field of the kind that it amends; here only its own are typed. */
function ownExample(type: EventType): Record<string, unknown> {
  const { fields, example } = kinds[type];
  return Object.fromEntries(Object.entries(example).filter(([name]) => Object.hasOwn(fields, name)));
}

function exampleBody(type: EventType): JsonObject {
  const answer = typed(type);
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.body;
}

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, validateFormats: false });

describe.each(kindTypes)('%s', (type) => {
  const kind: Kind = kinds[type];

  it('has an example that types to a valid body', () => {
    expect(parseBody(type, kind.v, exampleBody(type))).toMatchObject({ ok: true, event: { type } });
  });

  it('explains itself and each of its fields', () => {
    expect(kind.title).not.toBe('');
    expect(kind.help).toMatch(/[.:]/);
    for (const [name, { help, form, example }] of Object.entries(kind.fields)) {
      expect(help, name).not.toBe('');
      if (form.is !== 'identity' && form.is !== 'data' && form.is !== 'sealed')
        expect(example, name).not.toBe('');
    }
  });

  it('takes the example of every single field', () => {
    const refused: string[] = [];
    for (const [name, { example }] of Object.entries(kind.fields)) {
      if (example === '' || name in (filledIn[type] ?? {})) continue;
      if (!typed(type, { [name]: example }).ok) refused.push(name);
    }
    expect(refused).toEqual(excluded[type] ?? []);
  });

  it('asks for everything that cannot be left out, all at once', () => {
    const answer = typeBody(kind, {}, typing);
    const missing = answer.ok
      ? []
      : answer.problems.filter((problem) => problem.missing).map(({ field }) => field);
    expect(missing).toEqual(requiredFields(kind));
  });

  it('has a JSON Schema (2020-12) that accepts its example and refuses an unknown or a missing member', () => {
    const schema = bodySchema(kind);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(ajv.validateSchema(schema)).toBe(true);
    const validate = ajv.compile(schema);
    const body = exampleBody(type);
    expect(validate(body), ajv.errorsText(validate.errors)).toBe(true);
    expect(validate({ ...body, colour: 'blue' })).toBe(false);
    for (const name of requiredFields(kind)) {
      const { [name]: _left, ...rest } = body;
      expect(validate(rest), `without ${name}`).toBe(false);
      expect(parseBody(type, kind.v, rest).ok, `without ${name}`).toBe(false);
    }
  });

  it('refuses a member that it has not, and names it', () => {
    expect(parseBody(type, kind.v, { ...exampleBody(type), colour: 'blue' })).toEqual({
      ok: false,
      newer: false,
      issues: [{ field: 'colour', value: '"blue"', remedy: 'this kind has no such field; leave it out' }],
    });
  });
});

describe('what is mistyped', () => {
  it('gets the nearest field suggested', () => {
    expect(typed('stem-marked', { spesies: 'white oak' })).toMatchObject({
      ok: false,
      problems: [{ field: 'spesies', value: 'white oak', remedy: /did you mean species\?/ }],
    });
    expect(typed('tag-lost', { qqqqqq: '1' })).toMatchObject({
      ok: false,
      problems: [{ remedy: /its fields are stem, note/ }],
    });
  });

  it('gets the nearest choice suggested, and all choices listed', () => {
    expect(typed('stem-marked', { mark: 'leav' })).toMatchObject({
      ok: false,
      problems: [{ field: 'mark', value: 'leav', remedy: 'did you mean leave? One of: cut, leave' }],
    });
  });

  it('gets the nearest kind suggested', () => {
    expect(nearestKind('stem-market')).toBe('stem-marked');
    expect(nearestKind('xyzzy')).toBeUndefined();
  });

  it('comes back whole: every problem, not only the first', () => {
    const answer = typed('stem-felled', {
      came: 'sideways',
      lay: '40',
      stumpHeight: '8 hands',
      wedges: 'two',
    });
    expect(answer.ok ? [] : answer.problems.map(({ field }) => field)).toEqual([
      'came',
      'lay',
      'stumpHeight',
      'wedges',
    ]);
  });

  it('is asked back with choices where there are some', () => {
    const species = typed('stem-marked', { species: 'yellowwood' });
    expect(species.ok ? [] : species.problems[0]?.choices).toHaveLength(3);
    const again = typeBody(
      kinds['entry-amended'],
      { ...ownExample('entry-amended'), ...filledIn['entry-amended'], happenedAt: '2026-11-01 01:30' },
      typing,
    );
    expect(again).toMatchObject({
      ok: false,
      problems: [{ choices: [{ text: '2026-11-01T01:30:00-04:00' }, { text: '2026-11-01T01:30:00-05:00' }] }],
    });
  });
});

describe('what does not go together is refused with a remedy', () => {
  it.each([
    ['stem-marked', { mark: 'cut', purpose: 'seed' }, 'purpose'],
    ['mark-changed', { mark: 'cut', purpose: 'seed' }, 'purpose'],
    ['logbook-opened', { zone: 'Mars/Base' }, 'zone'],
    ['damage-noted', { to: 'sapling', stem: undefined, sapling: undefined }, 'sapling'],
    ['stem-felled', { came: 'down', hungOn: 'A14' }, 'hungOn'],
    ['decay-measured', { found: 'none', shell: '4 in' }, 'found'],
    ['damage-noted', { to: 'leave-tree', stem: undefined }, 'stem'],
    ['sapling-checked', { sapling: 's1', patch: 'p1' }, 'sapling'],
    ['sapling-checked', { sapling: undefined }, 'sapling'],
    ['block-laid-out', { axesAzimuth: '0 true' }, 'axesOrigin'],
    ['personal-data-erased', { person: undefined }, 'person'],
    ['plot-tallied', { plotRadius: '37.24 ft' }, 'plotRadius'],
    ['plot-tallied', { factor: undefined }, 'factor'],
    ['plot-tallied', { factor: '0 ft2/ac' }, 'factor'],
    ['plot-tallied', { method: 'fixed-radius', factor: undefined }, 'plotRadius'],
    ['plot-tallied', { laidOut: 'along the slope' }, 'slope'],
    ['regeneration-counted', { group: undefined }, 'group'],
    ['regeneration-counted', { plotRadius: '0 ft' }, 'plotRadius'],
  ] as const)('%s %o', (type, change, field) => {
    expect(typed(type, change)).toMatchObject({ ok: false, problems: [{ field }] });
  });
});

describe('an amendment', () => {
  const amended = exampleBody('entry-amended');

  it('holds a body that is valid for its kind, or is refused with the field within', () => {
    expect(parseBody('entry-amended', 1, { ...amended, body: { text: 7 } })).toMatchObject({
      ok: false,
      newer: false,
      issues: [{ field: 'body.text', value: '7' }],
    });
    expect(parseBody('entry-amended', 1, { ...amended, type: 'stem-felled', body: {} })).toMatchObject({
      ok: false,
      issues: [{ field: 'body.stem' }, { field: 'body.came' }],
    });
  });

  it('cannot give the logbook a time zone that does not exist', () => {
    const opened = { ...exampleBody('logbook-opened'), zone: 'Mars/Base' };
    expect(parseBody('entry-amended', 1, { ...amended, type: 'logbook-opened', body: opened })).toMatchObject(
      {
        ok: false,
        issues: [{ field: 'body.zone', value: 'Mars/Base' }],
      },
    );
  });

  it('for a kind or version of a newer program is kept', () => {
    expect(parseBody('entry-amended', 1, { ...amended, v: 9, body: { words: 1 } }).ok).toBe(true);
    expect(parseBody('entry-amended', 1, { ...amended, type: 'bird-seen', body: {} }).ok).toBe(true);
  });

  it('has a time that every calendar has', () => {
    for (const at of ['2026-02-31T09:00:00Z', '2026-13-01T09:00:00Z', '2026-03-01T25:00:00Z', '2026-03-01'])
      expect(
        parseBody('entry-amended', 1, { ...amended, happenedAt: { at, precision: 'minute' } }),
        at,
      ).toMatchObject({ ok: false, issues: [{ field: 'happenedAt.at' }] });
    expect(
      parseBody('entry-amended', 1, {
        ...amended,
        happenedAt: { at: '2028-02-29T09:00:00Z', precision: 'minute' },
      }).ok,
    ).toBe(true);
  });
});

test('ids are in lower case, so that one thing has one id', () => {
  expect(parseBody('tag-lost', 1, { stem: made }).ok).toBe(true);
  expect(parseBody('tag-lost', 1, { stem: made.toUpperCase() })).toMatchObject({
    ok: false,
    issues: [{ field: 'stem', remedy: 'a UUID in lower case' }],
  });
});

describe('versions', () => {
  const renamed: Pick<Kind, 'v' | 'upcasters'> = {
    v: 3,
    upcasters: {
      1: ({ girth, ...rest }) => ({ ...rest, dbh: girth ?? null }),
      2: (body) => ({ ...body, dbhAt: '4.5 ft' }),
    },
  };

  it('are raised step by step to the current one, and what was stored is not touched', () => {
    const stored = Object.freeze({ stem: made, girth: '14 in' });
    expect(upcast(renamed, 1, stored)).toEqual({ stem: made, dbh: '14 in', dbhAt: '4.5 ft' });
    expect(upcast(renamed, 2, { dbh: '9 in' })).toEqual({ dbh: '9 in', dbhAt: '4.5 ft' });
    expect(upcast(renamed, 3, { dbh: '9 in' })).toEqual({ dbh: '9 in' });
    expect(stored).toEqual({ stem: made, girth: '14 in' });
  });

  it('that never existed are refused', () => {
    expect(upcast(renamed, 0, {})).toBeUndefined();
    expect(parseBody('tag-lost', 0, { stem: made })).toMatchObject({
      ok: false,
      newer: false,
      issues: [{ field: 'v', value: '0' }],
    });
  });

  it('and kinds of a newer program are kept, and are no errors', () => {
    for (const read of [parseBody, readBody]) {
      expect(read('tag-lost', 99, { anything: true })).toMatchObject({ ok: false, newer: true });
      expect(read('bird-seen', 1, {})).toMatchObject({
        ok: false,
        newer: true,
        sentence: '"bird-seen" is not a kind this version knows; a newer program can read it.',
      });
      // Names that every object has are no kinds.
      expect(read('constructor', 1, {})).toMatchObject({ ok: false, newer: true });
    }
    expect(kindOf('toString')).toBeUndefined();
  });

  it('have an upcaster from each earlier version of each kind', () => {
    for (const kind of Object.values(kinds))
      expect(Object.keys(kind.upcasters).map(Number)).toEqual(
        Array.from({ length: kind.v - 1 }, (_, index) => index + 1),
      );
  });
});
