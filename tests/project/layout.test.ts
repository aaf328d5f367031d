// How the project is laid out, so that a stranger finds every room where the design says and knows what it is for.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../../cli/prepare.mjs';

// A checkout that belongs to another user is listed too: a build machine often fetches as one and tests as another.
const listing = ['-c', 'safe.directory=*', 'ls-files', '--cached', '--others', '--exclude-standard'];
const files = execFileSync('git', listing, { cwd: root, encoding: 'utf8' })
  .split('\n')
  .filter((path) => path !== '' && existsSync(join(root, path)));
const code = files.filter((path) => /^(src|cli|docs|exports|fixtures)\/.*\.(ts|tsx|mjs)$/.test(path));

function text(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

test('the top level holds the rooms of the design, config files and dotfiles, nothing else', () => {
  const rooms = ['cli', 'src', 'tests', 'fixtures', 'exports', 'docs'];
  const papers = [
    'README.md',
    'DEVELOPERS.md',
    'CHANGELOG.md',
    'LICENSE',
    'package.json',
    'package-lock.json',
  ];
  const settings = /^(\..+|[a-z]+\.config\.ts|tsconfig\.json|biome\.json|knip\.json)$/;
  const top = new Set(files.map((path) => path.split('/')[0] ?? ''));
  const strangers = [...top].filter((name) => ![...rooms, ...papers].includes(name) && !settings.test(name));
  expect(strangers).toEqual([]);
});

test('every room has one door, index.ts, which begins by saying what the room is', () => {
  const folders = readdirSync(join(root, 'src'), { withFileTypes: true }).filter((entry) =>
    entry.isDirectory(),
  );
  const rooms = folders.flatMap(({ name }) => (name === 'log' ? ['log/entry', 'log/store'] : [name]));
  expect(rooms.length).toBeGreaterThan(0);
  const doors = rooms.map((room) => `src/${room}/index.ts`);
  expect(doors.filter((path) => !existsSync(join(root, path)) || !/^\/[/*]/.test(text(path)))).toEqual([]);
});

test('every file of code explains itself before its first line of code', () => {
  const imports = /^(#!.*\n|import\s[^;]*;\s*)*/;
  expect(code.filter((path) => !/^\s*\/[/*]/.test(text(path).replace(imports, '')))).toEqual([]);
});

test('nothing is put off in a comment, and no file names a folder of one machine', () => {
  // Put together from parts, or this file would find itself.
  const forbidden = new RegExp(
    `\\b(TO${'DO'}|FIX${'ME'}|X${'XX'})\\b|["'\`( ](/tm${'p'}|/hom${'e'}|/roo${'t'}|/wor${'k'})/`,
  );
  const read = files.filter(
    (path) => /\.(ts|tsx|mjs|cjs|md|json|css|html)$/.test(path) && path !== 'package-lock.json',
  );
  expect(read.filter((path) => forbidden.test(text(path)))).toEqual([]);
});

test('every decision says when it was taken', () => {
  const decisions = files.filter((path) => path.startsWith('docs/decisions/') && path.endsWith('.md'));
  expect(decisions.length).toBeGreaterThan(0);
  expect(decisions.filter((path) => !/\b20\d\d-[01]\d-[0-3]\d\b/.test(text(path).slice(0, 600)))).toEqual([]);
});
