// The log as it is read: names that are there, entries that came late, what is missing.
import { describe, expect, it } from 'vitest';
import { demo, started } from './gapledger.ts';

describe('a name', () => {
  it('is read back at once, and in the log also from an entry that was struck', () => {
    const { done } = started();
    expect(done(['record', 'person-named', '--name', 'Dell Pruitt', '--part', 'feller'])).toContain(
      'named Dell Pruitt, feller',
    );
    done(['record', 'entry-struck', '--strikes', '2', '--reason', 'not coming after all']);
    expect(done(['log'])).toMatch(/\(struck\) named Dell Pruitt/);
  });

  it('that was erased is told as erased', () => {
    expect(demo().done(['log', '--kind', 'person-named'])).toContain('somebody (name erased)');
  });
});

describe('an entry', () => {
  it('recorded on a later day than it happened is marked late', () => {
    const { done, json } = started();
    done(['record', 'note-written', '--text', 'snow', '--at', 'yesterday']);
    done(['record', 'note-written', '--text', 'thaw']);
    expect(done(['log'])).toMatch(/snow \(entered late\)\n.*thaw$/m);
    expect(json<{ late: boolean }[]>(['log', '--last', '2']).map(({ late }) => late)).toEqual([true, false]);
  });
});

describe('a head that counts more than there is', () => {
  it('is answered with how many entries are missing', () => {
    const place = started();
    const { code, error } = place.run(['verify', '--since', `9:${'0'.repeat(64)}`]);
    expect([code, error]).toEqual([3, expect.stringContaining('7 entries are missing at the end')]);
  });
});

describe('longitude and latitude', () => {
  it('are what an export gives when no system is named', () => {
    const { code, error } = demo().run(['export', '--crs', '4326']);
    expect([code, error]).toEqual([2, '--crs: leave --crs out for longitude and latitude.\n']);
  });
});
