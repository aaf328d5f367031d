// Figures in the changelog are counted from the code, so that they stay true until a version is released.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { build } from '../../cli/program.ts';
import { kindTypes } from '../../src/events/index.ts';
import { layers } from '../../src/layers/index.ts';
import { findingCodes } from '../../src/stand/findings.ts';

const text = readFileSync(fileURLToPath(new URL('../../CHANGELOG.md', import.meta.url)), 'utf8');
const [, unreleased = ''] = text.split(/^## .*\n/m);

it.each([
  ['kinds of entries', kindTypes.length],
  ['kinds of findings', findingCodes.length],
  ['map layers', layers.length],
])('the changelog counts the %s', (what, count) => {
  const said = new RegExp(`(\\d+) ${what}`).exec(unreleased)?.[1];
  // A version that was released counted what it had then.
  if (said !== undefined) expect(Number(said)).toBe(count);
});

it('the changelog names every command', () => {
  const [, listed = ''] = /The command line: ([\w\s,-]+)\./.exec(unreleased) ?? [];
  const commands = build('', { code: 0 }).commands.map((command) => command.name());
  expect(listed.split(/,\s+/)).toEqual(commands.filter((name) => name !== 'help'));
});
