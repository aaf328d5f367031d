// GET /reports/emergency-card: to print and as data, judged at the moment of asking.
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { EmergencyCardReport } from '../../src/reports/index.ts';
import { type House, house } from './desk.ts';

let woods: House;
beforeAll(async () => {
  woods = await house();
  await woods.record('block-laid-out', { name: 'Far ridge' });
  await woods.record('emergency-card-set', {
    accessPoint: '35.712345, -81.683456',
    callFirst: '911',
    contacts: 'Joan 555-0164',
  });
  await woods.record('emergency-card-set', { block: 'Far ridge', wayIn: 'by the ford' });
  // The house's clock says ten in the morning.
  await woods.record('call-expected', { due: '2026-03-20 09:30' });
});
afterAll(async () => woods.end());

const dataOf = async (query = '') =>
  (await (await woods.ask(`/reports/emergency-card.json${query}`)).json()) as EmergencyCardReport;

it('gives the card as data and as a page, with the contacts and the call that is overdue', async () => {
  const card = await dataOf();
  expect(card.callFirst.text).toBe('911');
  expect(card.contacts.text).toBe('Joan 555-0164');
  expect(card.call.state).toBe('overdue');
  const page = await (
    await woods.ask('/reports/emergency-card', { headers: { accept: 'text/html' } })
  ).text();
  expect(page).toContain('OVERDUE');
  expect(page).toContain('35° 42.741&#39; N');
});

it('before that time the call was only expected', async () => {
  const then = await dataOf('?at=2026-03-20%2009:00');
  // Recorded at ten, so nobody expected it at nine: the card of that moment knows of no call.
  expect(then.call.state).toBe('none');
});

it('is kept by no cache: what is overdue depends on the moment of asking', async () => {
  const answer = await woods.ask('/reports/emergency-card');
  expect(answer.headers.get('cache-control')).toBe('no-store');
  expect(answer.headers.get('etag')).toBeNull();
  expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
});

it('of one block, by its name; of none by that name is refused', async () => {
  expect((await dataOf('?block=Far%20ridge')).wayIn.text).toBe('by the ford');
  const answer = await woods.ask('/reports/emergency-card?block=nowhere');
  expect(answer.status).toBe(400);
  expect(await answer.json()).toMatchObject({
    code: 'bad-parameter',
    problems: [{ field: 'block', value: 'nowhere' }],
  });
});
