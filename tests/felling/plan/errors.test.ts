// How well places are known against each other, as gathered from a logbook: the error of the stake that all was measured from moves
// all of it together, and is left out.
import { expect, test } from 'vitest';
import { isUnresolved } from '../../../src/place/index.ts';
import { locate } from '../../../src/stand/index.ts';
import { plannedWoods } from '../adopted/planned-woods.ts';

test('what hangs on the stake of the group has the error of its tape and compass only; what hangs on another has its own in full', async () => {
  const woods = await plannedWoods(async ({ record }) => {
    // The group hangs on stake S; this sapling on T, which was fixed apart from it, and this one on S through a stem.
    await record('sapling-protected', { label: 'by T', position: '0 true, 10 m from stake T' });
    await record('sapling-protected', { label: 'by A1', position: '90 true, 5 m from stem A1' });
    await record('sapling-protected', { label: 'by S', position: '45 true, 10 m from stake S' });
  });
  const { inputs } = (await woods.plan()).model;
  const error = (label: string) =>
    [...inputs.stems, ...(inputs.saplings ?? [])].find((one) => one.label === label)?.positionError ??
    Number.NaN;
  const { stand } = await woods.folded();
  const stake = locate(stand).stake([...stand.stakes.values()].find(({ label }) => label === 'T')?.id ?? '');
  const ofStake = isUnresolved(stake) ? Number.NaN : stake.standardError;
  expect(ofStake).toBeGreaterThan(1);
  // Compass and tape over 10 m are good to well under a metre; the stakes, fixed by satellites, to more.
  expect(error('by S')).toBeGreaterThan(0);
  expect(error('by S')).toBeLessThan(0.6);
  expect(error('by T')).toBeCloseTo(Math.hypot(ofStake, error('by S')), 6);
  expect(error('A2')).toBeLessThan(error('by S'));
  // 2 m and then 5 m, each with its own error.
  expect(error('by A1')).toBeGreaterThan(error('A1'));
  expect(error('by A1')).toBeLessThan(0.6);
});
