// At a terminal the program asks for what is missing. A real pseudo-terminal is made by util-linux' script.
import { describe, expect, it } from 'vitest';
import { atTerminal, demo, emptyPlace, started } from './gapledger.ts';

const size = (place: { json: <T>(words: string[]) => T }) => place.json<unknown[]>(['log']).length;

describe('at a terminal', () => {
  it('a new logbook is asked together, with the machine’s zone and US units as they stand', async () => {
    const place = emptyPlace();
    const { code, screen } = await atTerminal(
      place,
      ['init', 'woods.logbook'],
      [
        ['What the property is called', 'Laurel Run\r'],
        ['Time zone of the woods [America/New_York]', '\r'],
        ['us or metric [us]', '\r'],
        ['Working CRS', 'EPSG:2264\r'],
        ['Your name', 'Ann Weaver\r'],
      ],
    );
    expect(screen).toContain('Started woods.logbook');
    expect(code).toBe(0);
    expect(place.done(['status'])).toContain('Laurel Run');
  });

  it('what is missing is asked for, and recorded', async () => {
    const place = started();
    const { code, screen } = await atTerminal(
      place,
      ['record', 'stem-marked', '--tag', 'A1'],
      [['mark: is needed', 'cut\r']],
    );
    expect([code, screen]).toEqual([0, expect.stringContaining('Recorded as entry 2')]);
  });

  it('choices are made by number; none of them records nothing', async () => {
    const place = started();
    place.done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    const words = ['record', 'stem-marked', '--mark', 'leave', '--tag', 'A1'];
    const none = await atTerminal(place, words, [['1 to 2', '\r']]);
    expect([none.code, size(place)]).toEqual([2, 3]);
    const both = await atTerminal(place, words, [['1 to 2', '2\r']]);
    expect([both.code, size(place)]).toEqual([0, 4]);
  });

  it('a species that fits several is chosen from them', async () => {
    const place = started();
    const { code, screen } = await atTerminal(
      place,
      ['record', 'stem-marked', '--mark', 'cut', '--species', 'scarlt oak'],
      [['1 to', '1\r']],
    );
    expect([code, screen]).toEqual([0, expect.stringContaining('scarlet oak')]);
  });

  it('Ctrl-C at a question records nothing', async () => {
    const place = started();
    const { code, screen } = await atTerminal(
      place,
      ['record', 'stem-marked'],
      [['mark: is needed', '\u0003']],
    );
    expect([code, size(place)]).toEqual([2, 2]);
    expect(screen).toContain('Nothing was recorded.');
  });

  it('with --json nothing is asked', async () => {
    const place = started();
    expect((await atTerminal(place, ['record', 'stem-marked', '--json'], [])).code).toBe(2);
  });

  it('colours are for terminals: none in a pipe, none with NO_COLOR', async () => {
    const place = demo();
    const colour = '\u001b[';
    expect((await atTerminal(place, ['stand'], [])).screen).toContain(colour);
    expect(place.done(['stand'])).not.toContain(colour);
    const quiet = { ...place, env: { ...place.env, NO_COLOR: '1' } };
    expect((await atTerminal(quiet, ['stand'], [])).screen).not.toContain(colour);
  });

  it('replay goes on with Enter', async () => {
    const place = demo();
    const { code, screen } = await atTerminal(
      place,
      ['replay', 'G3', '--step'],
      [
        ['Enter for the next', '\r'],
        ['Enter for the next', '\u0003'],
      ],
    );
    expect(code).toBe(0);
    expect(screen).toContain('2/8');
    expect(screen).not.toContain('3/8');
    expect(screen).not.toContain('Nothing was recorded');
  });
});
