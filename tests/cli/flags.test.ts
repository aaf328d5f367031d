// No field of a kind may be called like a flag that every kind has: it could not be typed.
import { expect, it } from 'vitest';
import { fieldsOf } from '../../cli/record-flags.ts';
import { kinds, kindTypes } from '../../src/events/index.ts';

it.each(kindTypes)('every field of %s is typed under its own name', (type) => {
  const names = Object.keys(kinds[type].fields);
  expect(Object.keys(fieldsOf(Object.fromEntries(names.map((name) => [name, 'x']))))).toEqual(names);
});
