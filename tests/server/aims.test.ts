// Lays against aims and recorded numbers over HTTP: shown with entries, refused where they are wrong, used for who plans.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { House } from './desk.ts';
import { houseInLine } from './in-line.ts';

let woods: House;
beforeEach(async () => {
  woods = await houseInLine('A', 'B');
});
afterEach(() => woods.end());

const post = (fields: Record<string, string>) =>
  woods.ask('/api/events', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ kind: 'felling-default-set', fields }),
  });
const set = (value: string, more: Record<string, string> = {}) => ({
  person: 'Ann Weaver',
  assumption: 'directionError',
  value,
  reason: 'lays measured',
  ...more,
});

describe('GET /api/figures/aims', () => {
  it('gives each fall with its entry, and what is missing', async () => {
    await woods.record('stem-felled', { stem: 'B', came: 'down', aimed: '0 true', lay: '357 true' });
    await woods.record('stem-felled', { stem: 'A', came: 'down', aimed: '0 true', asAimed: 'yes' });
    const answer = await woods.ask('/api/figures/aims');
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({
      what: 'aims',
      figures: {
        people: [
          {
            name: 'Ann Weaver',
            measured: [{ label: 'B', off: -3, entry: 6 }],
            unmeasured: [{ label: 'A', entry: 7, why: 'as aimed by eye, which is no measurement' }],
            estimate: { notEnough: 'not enough data: 1 of 15 falls measured' },
            offer: null,
          },
        ],
      },
    });
  });

  it('refuses a person whom the logbook does not know, and what means nothing to it', async () => {
    for (const [query, field] of [
      ['by=Nobody', 'by'],
      ['form-class=78', 'form-class'],
    ]) {
      const answer = await woods.ask(`/api/figures/aims?${query}`);
      expect(answer.status).toBe(400);
      expect(await answer.json()).toMatchObject({ problems: [{ field }] });
    }
  });
});

describe('a number of the model for one person', () => {
  it('is refused below the floor and outside its range, and recorded where it says what is meant', async () => {
    for (const fields of [set('3'), set('300'), set('7', { assumption: 'luck' })]) {
      const answer = await post(fields);
      expect(answer.status).toBe(422);
    }
    expect((await post(set('3', { belowFloor: 'yes' }))).status).toBe(201);
  });

  it('is used in the plans of who asks, with its entry', async () => {
    expect((await post(set('8'))).status).toBe(201);
    const answer = await woods.ask('/api/groups/G1/plan');
    expect(await answer.json()).toMatchObject({
      changed: [
        {
          name: 'directionError',
          value: 8,
          usual: 6,
          looser: false,
          recorded: { entry: 6, reason: 'lays measured' },
        },
      ],
    });
    const other = await woods.ask('/api/groups/G1/plan?by=Nobody');
    expect(other.status).toBe(400);
  });
});
