// What ends an adopted plan: every input of it once (issue of the order of felling: stem, sapling, patch, hazard, structure or line, leave
// tree, consent, stake, correction, wind, recorded number), and beside each what does not. Sentences are held in part only.
import { describe, expect, it } from 'vitest';
import { laterThan } from '../../../src/felling/adopted/later.ts';
import { ends, play, type Step } from './ended-cases.ts';
import { plannedWoods } from './planned-woods.ts';

describe('an adopted plan ends with', () => {
  it.each(ends)('$what', async ({ before, later, says }) => {
    const woods = await plannedWoods((made) => play(made, before ?? []));
    expect(await woods.ended()).toEqual([]);
    const { falls } = await woods.compared();
    const last = falls.at(-1)?.label ?? '';
    await play(
      woods,
      later.map(
        ([kind, fields, more]): Step => [
          kind,
          fields?.stem === 'LAST' ? { ...fields, stem: last } : fields,
          more,
        ],
      ),
    );
    const ended = await woods.ended();
    expect(
      ended.some((reason) => says.test(reason)),
      ended.join('\n'),
    ).toBe(true);
    // Each reason names the entries behind it, so that somebody can look.
    const { reasons } = await woods.compared();
    expect(reasons.every(({ entries }) => entries.length > 0)).toBe(true);
  });

  it('a stake that was measured again, for what was measured from it moves', async () => {
    const woods = await plannedWoods();
    const stake = (await woods.folded()).happenings.find(
      ({ event }) => event.type === 'stake-set' && event.body.label === 'S',
    );
    await woods.record('entry-amended', {
      replaces: stake?.entry.id,
      position: '35.7151, -81.6835 +-1 m',
      reason: 'measured again',
    });
    expect(await woods.ended()).toEqual([
      expect.stringMatching(/What it was computed from was corrected: .*S/),
    ]);
  });

  it.each([
    ['a lean that was mistyped', 'stem-marked', 'A2', { lean: '1 m at 270 true' }],
    [
      'a sapling that was put in the wrong place',
      'sapling-protected',
      's1',
      { position: '0 true, 3 m from stake far' },
    ],
    ['a leave tree that stands elsewhere', 'stem-marked', 'L1', { position: '0 true, 3 m from stake far' }],
  ] as const)('a correction of what it rests on: %s', async (_, type, name, fields) => {
    const woods = await plannedWoods();
    const found = (await woods.folded()).happenings.find(
      ({ event }) => event.type === type && [event.body].some((body) => Object.values(body).includes(name)),
    );
    await woods.record('entry-amended', { replaces: found?.entry.id, reason: 'mistyped', ...fields });
    expect(await woods.ended()).toEqual([expect.stringContaining('was corrected')]);
  });

  it('an entry that was struck, and holds again once the strike is struck', async () => {
    const woods = await plannedWoods();
    const found = (await woods.folded()).happenings.find(
      ({ event }) => event.type === 'sapling-protected' && event.body.label === 's1',
    );
    const strike = await woods.record('entry-struck', {
      strikes: found?.entry.id,
      reason: 'no such sapling',
    });
    expect(await woods.ended()).toEqual([expect.stringMatching(/was corrected: sapling protected s1/)]);
    // Restored it is as it was, but somebody doubted it in between: the plan is made again all the same.
    await woods.record('entry-struck', { strikes: strike, reason: 'there is' });
    expect(await woods.ended()).toHaveLength(1);
  });
});

describe('an adopted plan goes on after', () => {
  it.each<[string, readonly Step[], readonly Step[]]>([
    ['its first fall as planned', [], [['stem-felled', { stem: 'FIRST', came: 'down' }]]],
    [
      'a sapling that was looked at and is unharmed',
      [],
      [['sapling-checked', { sapling: 's1', condition: 'unharmed' }]],
    ],
    [
      'a stump without rot',
      [],
      [
        ['stem-felled', { stem: 'FIRST', came: 'down' }],
        ['decay-measured', { stem: 'FIRST', found: 'none' }],
      ],
    ],
    ['a note', [], [['note-written', { text: 'cold', group: 'G1' }]]],
    ['a tag that was lost', [], [['tag-lost', { stem: 'A2' }]]],
    [
      'what happens out of reach',
      [],
      [
        ['sapling-checked', { sapling: 's9', condition: 'crushed' }],
        ['stem-found-down', { stem: 'L9', cause: 'snapped' }],
        ['hazard-noted', { what: 'insects', position: '0 true, 5 m from stake far' }],
        ['feature-mapped', { label: 'hut', what: 'structure', point: '0 true, 9 m from stake far' }],
      ],
    ],
    [
      'less wind than it was computed for',
      [['wind-noted', { wind: '8 mph' }]],
      [['wind-noted', { wind: '3 m/s' }]],
    ],
    [
      'wind at another group',
      [['group-laid-out', { label: 'G2' }]],
      [['wind-noted', { wind: '20 mph', group: 'G2' }]],
    ],
    [
      'a number recorded for somebody else',
      [['person-named', { name: 'Joan Weaver' }]],
      [
        [
          'felling-default-set',
          { person: 'Joan Weaver', assumption: 'directionError', value: '9', reason: 'new at it' },
        ],
      ],
    ],
  ])('%s', async (_, before, later) => {
    const woods = await plannedWoods((made) => play(made, before));
    const first = (await woods.compared()).falls[0]?.label ?? '';
    await play(
      woods,
      later.map(
        ([kind, fields, more]): Step => [
          kind,
          fields?.stem === 'FIRST' ? { ...fields, stem: first } : fields,
          more,
        ],
      ),
    );
    expect(await woods.ended()).toEqual([]);
  });

  it('a wind that it was computed for, noted before on that day', async () => {
    const woods = await plannedWoods((made) => made.record('wind-noted', { wind: '8 mph' }));
    // 8 mph = 8 × 0.44704 m/s (international mile, exact): 3.57632.
    expect((await woods.plan()).model.inputs.wind).toBeCloseTo(3.57632, 10);
    await woods.record('wind-noted', { wind: '9 mph' });
    expect(await woods.ended()).toEqual([expect.stringContaining('computed for 3.6 m/s')]);
  });
});

describe('wind that is typed for a plan', () => {
  // 8 mph = 3.57632 m/s and 10 kn = 5.14444 m/s (international mile and nautical mile, exact).
  it.each([
    ['8 mph', 3.57632],
    ['10 kn', 10 * (1852 / 3600)],
    ['18 km/h', 5],
    ['3', 3],
    ['3 m/s', 3],
    ['0', 0],
  ])('%s is %d m/s', async (wind, speed) => {
    expect((await (await plannedWoods()).plan({ wind })).wind).toBeCloseTo(speed, 9);
  });

  it.each(['breezy', '-3', '90 m/s', '5 ft', ''])('"%s" is refused', async (wind) => {
    await expect((await plannedWoods()).plan({ wind })).rejects.toThrow(/is no wind/);
  });
});

describe('what a plan did not know', () => {
  const happenedAt = { at: '2026-03-20T10:00:00-04:00', precision: 'instant' };
  const entries = new Map(
    [
      { id: 'plan', device: 'phone', seq: 5, position: 12 },
      { id: 'own before', device: 'phone', seq: 4, position: 11 },
      { id: 'own after', device: 'phone', seq: 6, position: 13 },
      { id: 'home before', device: 'desk', seq: 40, position: 8 },
      { id: 'home after', device: 'desk', seq: 41, position: 10 },
    ].map((entry) => [entry.id, { happenedAt, ...entry }]),
  ) as unknown as Parameters<typeof laterThan>[1]['entries'];
  const isLater = laterThan(
    { entry: 'plan', at: happenedAt, body: { size: 9 } } as unknown as Parameters<typeof laterThan>[0],
    { entries },
  );

  it('is told on its own device by the number there, though the log put the entry after its size', () => {
    expect(isLater('own before')).toBe(false);
    expect(isLater('own after')).toBe(true);
    expect(isLater('plan')).toBe(false);
  });

  it('is told from elsewhere by the size of the log that it was computed from', () => {
    expect(isLater('home before')).toBe(false);
    expect(isLater('home after')).toBe(true);
    expect(isLater('not here')).toBe(false);
  });
});
