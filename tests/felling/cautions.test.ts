// The cautions: one text in code and in docs, with what the law and published guidance say.
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cautions, cautionsMarkdown, planEndedCard, stopCards } from '../../src/felling/index.ts';

const point = (pattern: RegExp) => cautions.points.find(({ text }) => pattern.test(text));

describe('the cautions', () => {
  test('docs/cautions.md says what the program prints', () => {
    expect(readFileSync('docs/cautions.md', 'utf8')).toBe(cautionsMarkdown());
  });

  // US 29 CFR 1910.266(d)(6), worded as in Washington WAC 296-305-07016(1).
  test('others stay two tree lengths away, more on slopes, as 29 CFR 1910.266 and WAC 296-305-07016 have it', () => {
    const caution = point(/two tree lengths away from a tree that is being felled/);
    expect(caution?.text).toMatch(/farther on slopes/);
    expect(caution?.source).toMatch(/1910\.266\(d\)\(6\).*296-305-07016/);
  });

  // Oregon OAR 437-007-0810: the way out lets the feller get at least 25 ft away and to the side.
  test('the way out is 25 ft and to the side as in OAR 437-007-0810, and 45° back', () => {
    expect(point(/25 ft/)?.source).toMatch(/437-007-0810/);
    expect(lengthInMetres(25)).toBeCloseTo(7.6, 1);
    expect(point(/45°/)?.text).toMatch(/back and to the side/);
  });

  // Oregon OAR 437-007-0810; US 29 CFR 1910.266(h)(1)(ix).
  test('nobody works under a hung-up tree, the tree that holds it stays, and domino felling is forbidden', () => {
    expect(point(/under a hung-up tree/)?.text).toMatch(/do not cut the tree that holds it/);
    expect(point(/dominoes/)?.source).toMatch(/\(h\)\(1\)\(ix\)/);
  });

  test('they defer to law and to trained people, and what has no source says so', () => {
    expect(cautions.lead).toMatch(/trained person on site decides/);
    expect(cautions.lead).toMatch(/local law and training come first/);
    for (const { basis, source } of cautions.points) {
      if (basis === 'common practice') expect(source).toMatch(/^No source/);
      else expect(source).toMatch(/\d{3}/);
    }
  });

  test('no sentence calls anything safe', () => {
    expect(cautionsMarkdown()).not.toMatch(/\bsafe(ly|st|r)?\b/i);
  });
});

describe('the stop cards', () => {
  const card = (reason: keyof typeof stopCards) => stopCards[reason].points.map(({ text }) => text).join(' ');

  // Oregon OAR 437-007-0810; US 29 CFR 1910.266(h)(1)(ix).
  test('a hung-up stem: keep out, do not cut the tree that holds it, no stem onto it', () => {
    expect(card('hung-up')).toMatch(/out from under it/);
    expect(card('hung-up')).toMatch(/not cut the tree that holds it/);
    expect(card('hung-up')).toMatch(/do not fell another one onto it/);
  });

  // The sentence is fixed by the design of this program ("Where it can hurt someone").
  test('a plan that ended says so before anything else', () => {
    expect(planEndedCard.title).toBe('The plan no longer holds. Stop.');
    expect(planEndedCard.points[0]?.text).toMatch(/Fell nothing more by it/);
  });

  test.each(Object.entries({ ...stopCards, 'plan-ended': planEndedCard }))(
    '%s: "Stop.", three to five short points, two tree lengths, trained help, local law',
    (_reason, { title, points, end }) => {
      expect(title).toMatch(/Stop\.$/);
      expect(points.length).toBeGreaterThanOrEqual(3);
      expect(points.length).toBeLessThanOrEqual(5);
      const texts = points.map(({ text }) => text);
      for (const text of texts) expect(text.length, text).toBeLessThanOrEqual(100);
      expect(texts.join(' ')).toMatch(/two tree lengths/);
      expect(texts.join(' ')).toMatch(/trained help.*Local law/);
      expect(end).toMatch(/trained person on site decides/);
      for (const { basis, source } of points) {
        if (basis === 'common practice') expect(source).toMatch(/^No source/);
        else expect(source).toMatch(/\d{3}/);
      }
    },
  );
});

/** The international foot is 0.3048 m (agreement of 1959). */
function lengthInMetres(feet: number): number {
  return feet * 0.3048;
}
