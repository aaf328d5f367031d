// Looking at a logbook: every command prints for people and for programs, at any moment, with any knowledge.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { demo, emptyPlace, program, started } from './gapledger.ts';

type StandJson = { stems: { tag?: string; status: string }[] };

describe('for people and for programs', () => {
  it('--json parses on everything that prints, and nothing printed for a pipe is coloured', () => {
    const place = demo();
    const all: string[][] = [
      ['log'],
      ['log', '--entry', '17'],
      ['log', '--last', '3'],
      ['stand'],
      ['stand', '--group', 'G1'],
      ['findings'],
      ['findings', '--group', 'G1', '--all'],
      ['replay', 'G1'],
      ['export', '--out', 'layers'],
      ['report'],
      ['verify'],
      ['status'],
      ['backup', 'copy.logbook'],
      ['record', 'note-written', '--text', 'x'],
    ];
    for (const words of all) expect(() => void place.json(words), words.join(' ')).not.toThrow();
    for (const words of all.filter(([command]) => command !== 'backup' && command !== 'report')) {
      const out = place.done(words);
      expect(out, words.join(' ')).not.toBe('');
      expect(out).not.toContain('\u001b');
      expect(out.split('\n').every((line) => line === line.trimEnd())).toBe(true);
    }
    expect(() => place.json(['restore', 'copy.logbook', 'second.logbook'])).not.toThrow();
    expect(() => place.json(['demo', 'third.logbook'])).not.toThrow();
  });

  it('an error for a program is JSON too', () => {
    const { code, out } = demo().run(['stand', '--group', 'G9', '--json']);
    expect(code).toBe(2);
    expect(JSON.parse(out)).toHaveProperty('error');
  });

  it('whoever reads only the first lines is no failure', () => {
    const { env } = demo();
    const { stdout, stderr } = spawnSync(
      'sh',
      ['-c', `"${process.execPath}" "${program}" log --json | head -n 1`],
      {
        env,
        encoding: 'utf8',
      },
    );
    expect([stdout, stderr]).toEqual(['[\n', '']);
  });

  it('what can hurt somebody comes first, with the cautions', () => {
    const out = demo().done(['stand']);
    expect(out).toMatch(/^Open now: keep away\n {2}hanging limb at B2/);
    expect(out).toContain('Felling kills.');
  });
});

describe('at another moment', () => {
  it('--at is the woods as they were, by what is known now; --known-at what the logbook held', () => {
    const place = demo();
    const felled = (words: string[]) =>
      place.json<StandJson>(['stand', ...words]).stems.filter(({ status }) => status === 'felled').length;
    expect(felled([])).toBe(16);
    expect(felled(['--at', '2026-03-01'])).toBe(0);
    expect(felled(['--known-at', '21'])).toBe(0);
    expect(place.json<StandJson>(['stand', '--known-at', '21']).stems.map(({ tag }) => tag)).toContain('A7');
    expect(place.json<unknown[]>(['findings', '--at', '2026-02-20'])).not.toEqual(place.json(['findings']));
    const report = place.json<{ evidence: { size: number } }>(['report', '--known-at', '40']);
    expect(report.evidence.size).toBe(40);
  });

  it('a size that there never was, and a time that is none, are refused', () => {
    const place = demo();
    for (const words of [
      ['stand', '--known-at', '999'],
      ['findings', '--at', 'nonsense'],
      ['report', '--known-at', '2026-99-01'],
    ]) {
      const { code, error } = place.run(words);
      expect(code).toBe(2);
      expect(error).toContain(words.at(-1) ?? '');
    }
  });

  it('replay says at each step what stood and what was at risk', () => {
    const { steps } = demo().json<{ steps: { standing: string[]; atRisk: string[]; says: string }[] }>([
      'replay',
      'G1',
    ]);
    // A1 is among those to be felled just before its fall, and in no step after.
    const has = steps.map(({ standing }) => standing.includes('A1'));
    const felled = steps.findIndex(({ says }) => says.startsWith('A1 felled'));
    expect(felled).toBeGreaterThan(1);
    expect(has[felled - 1]).toBe(true);
    expect(has.slice(felled)).not.toContain(true);
    expect(steps.at(-1)?.standing).toEqual([]);
    expect(steps.some(({ atRisk }) => atRisk.length > 0)).toBe(true);
  });
});

describe('a report', () => {
  it('that is issued is kept by its hash, and standard output stays the report alone', () => {
    const place = started();
    const { out, error } = place.run(['report', '--issue', 'county forester', '--json']);
    expect(() => void JSON.parse(out)).not.toThrow();
    expect(error).toContain('Recorded as entry 2: issued to county forester.');
    place.done(['report', '--out', 'report.html']);
    expect(readFileSync(place.path('report.html'), 'utf8')).toMatch(/^<!doctype html>/i);
  });
});

describe('a logbook that is not there', () => {
  it.each([
    [['stand', '--logbook', 'nowhere.logbook'], 'there is no such file'],
    [['record', 'note-written', '--text', 'x', '--logbook', 'nowhere.logbook'], 'there is no such file'],
    [['verify', '--logbook', 'nowhere.logbook'], 'there is no such file'],
    [['stand', '--logbook', program], 'not a logbook'],
  ])('%j ends with 5', (words, sentence) => {
    const { code, out, error } = emptyPlace().run(words);
    expect([code, out]).toEqual([5, '']);
    expect(error).toContain(sentence);
  });

  it('nor named: says how', () => {
    const place = emptyPlace('');
    const { code, error } = place.run(['stand', '--logbook', '']);
    expect([code, error]).toEqual([5, expect.stringContaining('GAPLEDGER_LOGBOOK')]);
  });
});
