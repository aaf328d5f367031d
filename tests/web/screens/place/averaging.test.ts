// Fixes and directions averaged. What is checked is the arithmetic of weighting by 1/variance and of unit vectors.
import { expect, test } from 'vitest';
import { ageOf, type Fix, mean } from '../../../../src/web/field/screens/place/averaging.ts';
import { meanDirection } from '../../../../src/web/field/screens/place/direction.ts';

const fix = (lat: number, lon: number, accuracy: number, at = 0): Fix => ({ lat, lon, accuracy, at });

test('without a fix there is no mean', () => {
  expect(mean([])).toBeUndefined();
});

test('one fix is its own mean', () => {
  const found = mean([fix(35.9531, -81.7462, 8, 17)]);
  expect(found).toMatchObject({ lat: 35.9531, accuracy: 8, at: 17, fixes: 1 });
  expect(found?.lon).toBeCloseTo(-81.7462, 9);
});

test('fixes equally good count alike, and averaging promises no better accuracy than they had', () => {
  const found = mean([fix(35, -81, 6, 1), fix(35.002, -81.004, 6, 2)]);
  expect(found?.lat).toBeCloseTo(35.001, 9);
  expect(found?.lon).toBeCloseTo(-81.002, 9);
  expect(found?.accuracy).toBeCloseTo(6, 9);
  expect(found).toMatchObject({ fixes: 2, at: 2 });
});

// Weights by 1/variance: NIST/SEMATECH e-Handbook of Statistical Methods, weighted least squares (4.4.5.2), for a mean.
test('a fix three times as uncertain counts a ninth', () => {
  const found = mean([fix(35, -81, 5), fix(35.001, -81, 15)]);
  expect(found?.lat).toBeCloseTo(35 + 0.001 / 10, 9);
  // The root of the harmonic mean of 25 and 225, which is 45.
  expect(found?.accuracy).toBeCloseTo(Math.sqrt(45), 9);
});

test('a perfect fix, as some phones claim, does not divide by nothing', () => {
  const found = mean([fix(35, -81, 0), fix(36, -81, 10)]);
  expect(found?.lat).toBeCloseTo(35.0001, 4);
  expect(Number.isFinite(found?.accuracy)).toBe(true);
});

test('fixes on both sides of the antimeridian have their mean between them, not on the other side of the world', () => {
  const found = mean([fix(-17, 179.9998, 5), fix(-17, -179.9998, 5)]);
  expect(Math.abs(found?.lon ?? 0)).toBeCloseTo(180, 6);
  expect(mean([fix(0, -179.9, 5), fix(0, 179.7, 5)])?.lon).toBeCloseTo(179.9, 6);
});

test.each([
  [[90], 90],
  [[359, 1], 0],
  [[350, 20], 5],
  [[170, 190], 180],
  [[10, 10, 340], 0],
])('the mean of the directions %j is %f', (degrees, expected) => {
  const found = meanDirection(degrees);
  const apart = Math.abs(found - expected) % 360;
  expect(Math.min(apart, 360 - apart)).toBeLessThan(0.2);
  expect(found).toBeGreaterThanOrEqual(0);
  expect(found).toBeLessThan(360);
});

// Mardia and Jupp, Directional Statistics (2000), the roulette wheel of chapter 1: mean direction 51°. From memory.
test('nine spins of a roulette wheel have the mean direction of the book', () => {
  expect(meanDirection([43, 45, 52, 61, 75, 88, 88, 279, 357])).toBeCloseTo(51, 0);
});

const hour = 3_600_000;
test.each([
  ['by a clock that is right', 0, undefined, 0],
  ['two hours old', -2 * hour, undefined, 2 * hour],
  ['by the satellites, the clock behind and nobody knows', 5 * hour, undefined, 0],
  ['by the satellites, the clock five hours ahead', -5 * hour, 5 * hour, 0],
  ['by the satellites, the clock five hours behind', 5 * hour, -5 * hour, 0],
  ['by its own clock, five hours ahead', 0, 5 * hour, 0],
  ['two hours old by its own clock, five hours ahead', -2 * hour, 5 * hour, 2 * hour],
  ['two hours old by the satellites, the clock five hours ahead', -7 * hour, 5 * hour, 2 * hour],
])('the age of a fix stamped %s', (_, at, ahead, age) => {
  expect(ageOf(at, 0, ahead)).toBe(age);
});
