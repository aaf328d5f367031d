// The tag that comes next, and which stems are offered first.
import { expect, test } from 'vitest';
import { fold } from '../../../../src/stand/index.ts';
import { byNearestTag, lastTag, tagAfter } from '../../../../src/web/field/screens/stems/nextTag.ts';
import { pen, uuid } from '../../../stand/entries.ts';

const group = uuid(0x61_0001);
function standWith(tags: readonly string[], inGroup: readonly string[] = []) {
  const write = pen();
  return fold(
    tags.map((tag, index) =>
      write('stem-marked', {
        stem: uuid(0x62_0000 + index),
        tag,
        mark: 'cut',
        ...(inGroup.includes(tag) ? { group } : {}),
      }),
    ),
  ).stand;
}

test.each([
  ['A12', 'A13'],
  ['A9', 'A10'],
  ['B-09', 'B-10'],
  ['007', '008'],
  ['099', '100'],
  ['7', '8'],
  ['2026-14', '2026-15'],
  ['oak', 'oak 2'],
])('after %s comes %s', (last, next) => {
  expect(tagAfter(last, standWith([]))).toBe(next);
});

test('tags in use are passed over, whatever their case', () => {
  expect(tagAfter('A1', standWith(['a2', 'A3', 'A5']))).toBe('A4');
});

test('the last tag is that of the stem marked last, in the group when one is asked for', () => {
  const stand = standWith(['A1', 'A2', 'B7'], ['A1', 'A2']);
  expect(lastTag(stand, undefined)).toBe('B7');
  expect(lastTag(stand, group)).toBe('A2');
  expect(lastTag(stand, uuid(0x61_0002))).toBeUndefined();
});

test('stems are offered by how near their tag is to the last one, another series after all of it', () => {
  const stems = [...standWith(['A10', 'B5', 'A2', 'A6', 'A4']).stems.values()];
  const tags = (from?: string) => byNearestTag(stems, from).map(({ tag }) => tag);
  expect(tags('A5')).toEqual(['A4', 'A6', 'A2', 'A10', 'B5']);
  expect(tags()).toEqual(['A2', 'A4', 'A6', 'A10', 'B5']);
});
