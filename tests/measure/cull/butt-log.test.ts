// Decay at the stump: take the log with its cull, or cut the butt off.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  buttChoices,
  doyle,
  internationalFormula,
  isNotEnough,
  lineValue,
  type PriceList,
  scribnerDecimalC,
  type Volume,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

const log = { smallEnd: 16, length: 16 };

describe('a log of 16 in × 16 ft with 6 in of rot going 4 ft up, by Doyle', () => {
  const choices = given(buttChoices(log, { upTheButt: 4, diameter: 6 }, { scale: doyle }));

  test('scales 144 bf sound', () => {
    expect(choices.gross.value).toBe(144);
  });

  test('with the cull loses (6 + 1)² / (16 − 1)² of a quarter of its length', () => {
    expect(choices.withCull.lost.value).toBeCloseTo((144 * (49 / 225) * 4) / 16, 9);
    expect(choices.withCull.net.value + choices.withCull.lost.value).toBeCloseTo(144, 9);
  });

  test('jump-butted is a sound log of 12 ft', () => {
    expect(choices.jumpButted).toMatchObject({ cutOff: 4, length: 12 });
    expect(choices.jumpButted.net.value).toBe(108);
    expect(choices.jumpButted.net.method).toContain('jump-butted to 12 ft');
  });

  test('has no money without prices', () => {
    expect(missing(choices.withCull.money)).toContain('prices for the log with its cull');
  });
});

test('money is by the prices of each, which may be of different grades', () => {
  const prices: PriceList<'doyle'> = {
    rule: 'doyle',
    unit: 'Mbf',
    currency: 'USD',
    date: '2026-11-01',
    buyerClass: 'mill, delivered',
    rows: [
      { species: 'red oak', product: 'sawlog', grade: '1', price: 600 },
      { species: 'red oak', product: 'sawlog', grade: '3', price: 250 },
    ],
  };
  const worth = (grade: string) => (volume: Volume<'doyle'>) =>
    lineValue({ species: 'red oak', product: 'sawlog', grade, volume }, prices);
  const scaling = { scale: doyle, money: { withCull: worth('3'), jumpButted: worth('1') } };
  const { withCull, jumpButted } = given(buttChoices(log, { upTheButt: 4, diameter: 6 }, scaling));
  expect(number(withCull.money)).toBeCloseTo((withCull.net.value / 1000) * 250, 9);
  expect(number(jumpButted.money)).toBeCloseTo(0.108 * 600, 9);
});

test('rot that leaves less than 6 ft beyond it runs through the log for the boards beside it', () => {
  const through = given(buttChoices(log, { upTheButt: 10.5, diameter: 6 }, { scale: doyle }));
  const short = given(buttChoices(log, { upTheButt: 10, diameter: 6 }, { scale: doyle }));
  expect(through.withCull.lost.value).toBeCloseTo(144 * (49 / 225), 9);
  expect(short.withCull.lost.value).toBeCloseTo((144 * (49 / 225) * 10) / 16, 9);
});

test('rot wider than the small end less 2 in takes its whole length', () => {
  const { withCull } = given(buttChoices(log, { upTheButt: 4, diameter: 15 }, { scale: doyle }));
  expect(withCull.lost.value).toBeCloseTo(36, 9);
});

test('less than the shortest log left is no log', () => {
  const { jumpButted } = given(buttChoices(log, { upTheButt: 9, diameter: 6 }, { scale: doyle }));
  expect(jumpButted).toMatchObject({ length: 0, cutOff: 16 });
  expect(jumpButted.net.value).toBe(0);
  const six = given(buttChoices(log, { upTheButt: 9, diameter: 6 }, { scale: doyle, shortest: 6 }));
  expect(six.jumpButted.length).toBe(6);
});

test('no rot costs nothing', () => {
  const { withCull, jumpButted } = given(buttChoices(log, { upTheButt: 0, diameter: 0 }, { scale: doyle }));
  expect(withCull.lost.value).toBe(0);
  expect(jumpButted).toMatchObject({ cutOff: 0, length: 16 });
});

test('what was not measured at the stump is asked for', () => {
  expect(missing(buttChoices(log, { upTheButt: null, diameter: 6 }, { scale: doyle }))).toContain(
    'how far up',
  );
  expect(missing(buttChoices(log, { upTheButt: 4, diameter: null }, { scale: doyle }))).toContain('diameter');
  const large = { smallEnd: 30, length: 16 };
  expect(missing(buttChoices(large, { upTheButt: 4, diameter: 6 }, { scale: scribnerDecimalC }))).toContain(
    '30 in',
  );
});

test('neither way gives more than the sound log or less than nothing', () => {
  const measure = fc.double({ min: 0, max: 30, noNaN: true });
  fc.assert(
    fc.property(
      measure,
      measure,
      fc.integer({ min: 4, max: 10 }),
      measure,
      (upTheButt, diameter, pairs, smallEnd) => {
        const choices = buttChoices(
          { smallEnd, length: 2 * pairs },
          { upTheButt, diameter },
          { scale: internationalFormula },
        );
        if (isNotEnough(choices)) {
          // Only a log without a small end has no proportion of anything.
          expect(smallEnd).toBe(0);
          return;
        }
        for (const { net, lost } of [choices.withCull, choices.jumpButted]) {
          expect(net.value).toBeGreaterThanOrEqual(0);
          expect(net.value).toBeLessThanOrEqual(choices.gross.value + 1e-9);
          expect(net.value + lost.value).toBeCloseTo(choices.gross.value, 9);
        }
      },
    ),
  );
});
