// Felling kills: what stands beside it on the command line, and what is open now.
import { describe, expect, it } from 'vitest';
import { cautions, stopCards } from '../../src/felling/index.ts';
import { demo, started } from './gapledger.ts';

describe('the first line of the cautions', () => {
  it('stands on every command that shows felling', () => {
    const { done, run } = demo();
    const looking = [['stand'], ['stand', '--by', 'class'], ['figures', 'stumps'], ['log', '--last', '1']];
    for (const words of [...looking, ['findings'], ['replay', 'G1']])
      expect(done(words), words.join(' ')).toContain(cautions.lead);
    for (const layer of ['lays', 'stumps']) {
      const { out, error } = run(['export', layer, '--json']);
      expect(() => void JSON.parse(out)).not.toThrow();
      expect(error).toContain(cautions.lead);
    }
    expect(run(['export', 'saplings']).error).toBe('');
  });

  it('stands alone where nothing is open, and after a fall', () => {
    const { done } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    expect(done(['stand'])).toMatch(new RegExp(`^${cautions.lead}\n\n`));
    expect(done(['record', 'stem-felled', '--stem', 'A1', '--came', 'down'])).toContain(cautions.lead);
  });
});

describe('a stem that hangs', () => {
  it('is answered with what holds for it, and comes first from then on, with its distance and note', () => {
    const { done } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    const said = done(['record', 'stem-felled', '--stem', 'A1', '--came', 'hung-up']);
    const { because, points } = stopCards['hung-up'];
    expect(said).toMatch(new RegExp(`^Stop\\. ${because}`));
    for (const { text } of points) expect(said).toContain(text);
    const hazard = { what: 'hung-up-stem', stem: 'A1', radius: '160 ft', note: 'red ribbon' };
    done([
      'record',
      'hazard-noted',
      ...Object.entries(hazard).flatMap(([name, text]) => [`--${name}`, text]),
    ]);
    for (const command of ['stand', 'findings', 'status']) {
      const out = done([command]);
      expect(out, command).toContain('A1 is hung up');
      expect(out, command).toMatch(/hung-up stem at A1, .*160 ft.*, red ribbon/);
    }
  });
});

describe('worse than was noted', () => {
  it('is answered with its stop card: a lay far off the aim, and rot in a stem that showed no sign of it', () => {
    const { done } = started();
    done(['record', 'stem-marked', '--mark', 'cut', '--tag', 'A1']);
    const fell = ['record', 'stem-felled', '--stem', 'A1', '--came', 'down', '--aimed', '40 mag', '--lay'];
    const said = done([...fell, '75 mag']);
    expect(said).toContain(`Stop. ${stopCards['lay-far-off'].because}`);
    const rot = done(['record', 'decay-measured', '--stem', 'A1', '--found', 'rot']);
    expect(rot).toMatch(new RegExp(`^Stop\\. ${stopCards['more-rot'].because}`));
    expect(done(['record', 'decay-measured', '--stem', 'A1', '--found', 'none'])).not.toContain('Stop.');
  });
});
