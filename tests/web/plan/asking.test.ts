// What is settled on the phone, as the planner is asked for it.
import { expect, it } from 'vitest';
import { asAdopted, freely } from '../../../src/web/field/screens/plan/asking.ts';

const [one, other, down] = ['0197-a', '0197-b', '0197-c'];
const standing = new Set([one, other]);

// NIST Special Publication 811 (2008), appendix B.8: 1 mile an hour is 0.44704 m/s exactly.
it('takes wind in miles an hour as metres a second, and metres a second as they are', () => {
  expect(Number(freely({ wind: '10 mph' }, standing).wind)).toBeCloseTo(4.4704, 12);
  expect(freely({ wind: '3 m/s' }, standing).wind).toBe('3');
  expect(freely({ wind: '' }, standing)).not.toHaveProperty('wind');
});

it('forgets what was settled for a stem that is down, and keeps the rest', () => {
  const draft = { [`aim:${one}`]: '95 mag', [`aim:${down}`]: '10 true', next: down, wedges: 'yes' };
  expect(freely(draft, standing)).toEqual({ fix: `${one}=95 mag`, wedges: true, winch: false });
  expect(freely({ next: other }, standing).place).toBe(`${other}=1`);
});

it('keeps order and aims of an adopted plan, whatever was tried since', () => {
  const aim = (value: string) => ({ text: `${value} true`, value, reference: 'true' as const });
  const steps = [
    { stem: other, aim: aim('40.0') },
    { stem: one, aim: aim('95.5') },
  ];
  expect(asAdopted({ [`aim:${one}`]: '10 true', next: one, winch: 'yes' }, { steps, wind: '2' })).toEqual({
    wind: '2',
    fix: `${other}=40.0 true;${one}=95.5 true`,
    before: `${other}=${one}`,
    wedges: false,
    winch: true,
  });
  const assumed = [{ name: 'directionError', value: '8' }];
  expect(asAdopted({}, { steps, assumed }).assume).toBe('directionError=8');
  expect(asAdopted({ wind: '4 m/s' }, { steps, wind: '2' }).wind).toBe('4');
});
