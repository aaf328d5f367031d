// Help everywhere, with examples that hold; and what a mistyped word leads to.
import { describe, expect, it } from 'vitest';
import { kindTypes } from '../../src/events/index.ts';
import { demo, emptyPlace } from './gapledger.ts';

const commands = [
  'init',
  'record',
  'log',
  'stand',
  'findings',
  'plan',
  'worksheet',
  'replay',
  'export',
  'report',
  'verify',
  'status',
  'backup',
  'restore',
  'serve',
  'devices',
  'field-page',
  'demo',
  'import',
  'sheet',
  'figures',
];

describe('help', () => {
  it('of the program lists the commands, examples and exit codes; without words it is printed too', () => {
    const { done } = emptyPlace();
    const help = done(['--help']);
    const listed = [...(help.split('Commands:\n')[1] ?? '').matchAll(/^ {2}([a-z][a-z-]*) /gm)];
    // The examples and exit codes of "help" are those of the command that it is asked about.
    const named = listed.map(([, name]) => name).filter((name) => name !== 'help' && name !== 'gapledger');
    expect(new Set(named)).toEqual(new Set(commands));
    expect(help).toContain('Examples:\n  gapledger init');
    for (const code of ['0  done', '2  bad input', '3  verification', '4  conflict', '5  logbook missing'])
      expect(help).toContain(code);
    expect(done([])).toBe(help);
  });

  it.each(commands)('of %s gives an example of it', (command) => {
    const { done } = emptyPlace();
    const help = done([command, '--help']);
    expect(help).toMatch(new RegExp(`^Examples?:\\n(.*\\n)*?  gapledger ${command}\\b`, 'm'));
    expect(help).toContain('Exit codes:');
    expect(done([command, '-h'])).toBe(help);
  });

  it('of "record" lists every kind once', () => {
    const help = emptyPlace().done(['record', '--help']);
    for (const kind of kindTypes) expect(help.match(new RegExp(`^    ${kind} `, 'gm'))).toHaveLength(1);
  });

  it('of the kinds names their flags; nobody is asked for what the program fills in', () => {
    const { done } = emptyPlace();
    for (const kind of ['stem-marked', 'stem-felled', 'person-named', 'entry-struck'])
      expect(done(['record', kind, '--help'])).toContain(`Example:\n  gapledger record ${kind} --`);
    const amended = done(['record', 'entry-amended', '--help']);
    expect(amended).toContain('--replaces <value>');
    expect(amended).not.toMatch(/--body|--happened-at|--v </);
    expect(done(['record', 'stem', 'marked', '--help'])).toContain('--dbh <value>');
  });

  it('tells the version without loading anything', () => {
    expect(emptyPlace().done(['--version'])).toMatch(/^gapledger \d+\.\d+\.\d+\n$/);
  });
});

describe('a mistyped word suggests the nearest and runs nothing', () => {
  it.each([
    [['stnad'], 'stand'],
    [['stand', '--gruop', 'G1'], '--group'],
    [['record', 'stem-markd', '--mark', 'cut'], 'stem-marked'],
    [['record', 'stem-marked', '--mrak', 'cut'], '--mark'],
    [['record', 'stem-marked', '--mark', 'ct'], 'cut'],
    [['record', 'stem-felled', '--stem', 'A11', '--came', 'down'], 'A1'],
    [['record', 'note-written', '--text', 'x', '--by', 'Del Pruitt'], 'Dell Pruitt'],
    [['stand', '--group', 'G11'], 'G1'],
    [['replay', 'g11'], 'G1'],
    [['export', 'stms'], 'stems'],
    [['log', '--kind', 'stem-feled'], 'stem-felled'],
  ])('%j', (words, near) => {
    const { run, json } = demo();
    const before = json(['status']).head;
    const { code, out, error } = run(words);
    expect(code).toBe(2);
    expect(error.toLowerCase()).toContain(`did you mean ${near.toLowerCase()}`);
    expect(out).toBe('');
    expect(json(['status']).head).toEqual(before);
  });
});
