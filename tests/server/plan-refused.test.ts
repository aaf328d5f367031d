// What a plan is refused for over HTTP: each a sentence that names the field, the value and the remedy. And what is withheld while
// somebody has not agreed, or people are near.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { House } from './desk.ts';
import { houseInLine, inLine, type PlanAnswer, planFrom, unmeasured } from './in-line.ts';

let woods: House;
beforeEach(async () => {
  woods = await houseInLine('A');
});
afterEach(() => woods.end());

const stem = (tag: string, position: string, more: Readonly<Record<string, string>> = {}) =>
  woods.record('stem-marked', { ...inLine, tag, position, ...more });

type Problem = Readonly<{
  detail: string;
  problems: readonly { field: string; value: string; remedy: string }[];
}>;

async function refused(query = ''): Promise<Problem> {
  const answer = await woods.ask(`/api/groups/G1/plan${query}`);
  expect(answer.status, await answer.clone().text()).toBe(400);
  return (await answer.json()) as Problem;
}

const planOf = (query = '') => planFrom(woods, query);

describe('a plan is refused, with what to do instead, for', () => {
  it('a stem without a height while too few were measured for a curve', async () => {
    await woods.record('stem-marked', unmeasured);
    const { detail, problems } = await refused();
    expect(detail).toContain('Stem D has no height');
    expect(detail).toContain('Measure it');
    expect(detail).toContain('so that a curve can give it');
    expect(problems).toMatchObject([{ field: 'height', value: '' }]);
  });

  it('two stems at the same point', async () => {
    await stem('B', '0 true, 1.02 m from stake S');
    const { detail, problems } = await refused();
    expect(detail).toContain('Stems A and B stand at the same point');
    expect(detail).toContain('strike it if it was entered twice');
    expect(problems).toMatchObject([{ field: 'position', value: 'A, B' }]);
  });

  it('a sapling inside a stem', async () => {
    await woods.record('sapling-protected', { label: 's1', position: '0 true, 1.1 m from stake S' });
    const { detail, problems } = await refused();
    expect(detail).toContain('Sapling s1 stands inside stem A');
    // Half of the 40 cm that it is thick.
    expect(detail).toContain('at least 7.9 in (20 cm) from the middle');
    expect(problems).toMatchObject([{ field: 'position', value: 's1' }]);
  });

  it('a lean that is larger than the height', async () => {
    await stem('B', '90 true, 9 m from stake S', { lean: '25 m at 90 true' });
    const { detail, problems } = await refused();
    expect(detail).toContain('Stem B leans 82.0 ft (25.0 m), and it is 65.6 ft (20.0 m) high');
    expect(detail).toContain('Correct the lean or the height');
    expect(problems).toMatchObject([{ field: 'lean' }]);
  });

  it('an azimuth of which it is not said from which north it is', async () => {
    const { detail, problems } = await refused('?fix=A=95');
    expect(detail).toContain('95 mag');
    expect(problems).toMatchObject([{ field: 'fix', value: '95' }]);
    expect((await refused('?slope=20&downhill=210')).problems).toMatchObject([
      { field: 'downhill', value: '210' },
    ]);
  });

  it('a group that is closed, also where stems of it still stand', async () => {
    await stem('B', '90 true, 9 m from stake S');
    await woods.record('stem-felled', { stem: 'A', came: 'down' });
    await woods.record('opening-closed', { group: 'G1' }, { answers: ['anyway'] });
    const { detail, problems } = await refused();
    expect(detail).toContain('Group G1 is closed.');
    expect(detail).toContain('strike the closing if it was a mistake');
    expect(problems).toMatchObject([{ field: 'group', value: 'G1' }]);
  });

  it('a kind of notch that is not worked out, and people of whom nobody can tell where they are', async () => {
    expect((await refused('?notch=none')).detail).toContain('open face, conventional, humboldt');
    expect((await refused('?people=landing%20at%20the%20truck')).detail).toContain('so nothing is planned');
    expect(
      (await refused('?people=Ann%20at%2090%20true,%2030%20m%20from%20stake%20T')).problems,
    ).toMatchObject([{ field: 'people', value: 'Ann at 90 true, 30 m from stake T' }]);
  });
});

describe('nothing is planned', () => {
  // 29 CFR 1910.266(d)(6) as Washington WAC 296-305-07016 words it: two tree lengths at least.
  it('for a stem with people nearer than two tree lengths, until they are gone', async () => {
    const near = await planOf('?people=landing%20at%2090%20true,%2039%20m%20from%20stake%20S');
    expect(near.falls).toEqual([]);
    expect(near.aside[0]?.because).toMatch(/People are within 2 tree lengths of it \(landing, .* m\) away\)/);
    const far = await planOf('?people=landing%20at%2090%20true,%2041%20m%20from%20stake%20S');
    expect(far.falls.map(({ label }) => label)).toEqual(['A']);
    expect((await planOf()).falls).toHaveLength(1);
  });

  it('for a stem that is doubtful to a property line, until a consent is recorded', async () => {
    // An old fence on the south, half a metre from the stem: nobody knows it to half a metre.
    await woods.record('block-laid-out', {
      name: 'North',
      boundary: [
        '35.9532045, -81.7466549',
        '35.9532045, -81.7455451',
        '35.9541, -81.7455451',
        '35.9541, -81.7466549',
      ].join('; '),
    });
    await woods.record('boundary-evidence-noted', { block: 'North', line: '1', evidence: 'old-fence' });
    await woods.record('group-laid-out', { label: 'G2', block: 'North' });
    await stem('B', '87 true, 20 m from stake S', { group: 'G2' });
    const planOf = async () =>
      (await (await woods.ask('/api/groups/G2/plan?wedges=yes')).json()) as PlanAnswer;
    const before = await planOf();
    const doubtful = before.aside.find(({ label }) => label === 'B');
    expect(doubtful?.because).toMatch(/no consent of the neighbour is recorded/);
    expect(doubtful?.because).toContain('record neighbour-consent-noted');
    expect(before.falls).toEqual([]);
    await woods.record('neighbour-consent-noted', { stems: 'B', agreed: 'the line tree may be cut' });
    const after = await planOf();
    expect([...after.falls, ...after.aside].some(({ label }) => label === 'B')).toBe(true);
    expect(JSON.stringify(after.aside)).not.toContain('no consent');
  });
});
