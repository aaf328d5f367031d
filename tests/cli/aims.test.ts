// Lays against aims on the terminal, from the invented demo woodlot to a plan that is computed with what was learned there.
import { describe, expect, it } from 'vitest';
import { demo, demoToRead } from './gapledger.ts';

describe('gapledger figures aims', () => {
  it('prints each measured fall, how many were not, and what is offered', () => {
    const out = demoToRead().done(['figures', 'aims']);
    expect(out).toContain('Dell Pruitt: 15 falls measured, 1 not.');
    // A2 of the demo: aimed at 80 mag, lies at 84 mag.
    expect(out).toMatch(/^A2 +2026-03-07 09:02 +80 mag +84 mag +\+4\.0°/m);
    expect(out).toMatch(/^A5 +2026-03-07 11:37 +it hung up, and its direction was not measured/m);
    expect(out).toMatch(/Offered: \d/);
    // Where somebody could be hurt now comes first.
    expect(out.indexOf('Open now')).toBe(0);
  });

  it('says how many are missing before there are enough', () => {
    expect(demoToRead().done(['figures', 'aims', '--at', '2026-04-01'])).toContain(
      'not enough data: 7 of 15 falls measured',
    );
  });

  it('is about one person when asked, and as JSON names the entries', () => {
    const { figures } = demoToRead().json<{
      figures: { people: { name: string; offer: { restsOn: number[] } }[] };
    }>(['figures', 'aims', '--by', 'Dell Pruitt']);
    expect(figures.people.map(({ name }) => name)).toEqual(['Dell Pruitt']);
    expect(figures.people[0]?.offer.restsOn).toHaveLength(15);
  });

  it.each([
    [['figures', 'aims', '--by', 'Nobody'], '--by "Nobody"'],
    [['figures', 'aims', '--rule', 'doyle'], '--rule "doyle": it means nothing'],
    [['figures', 'aim'], 'aims'],
  ])('%j is refused and says what to write', (words, sentence) => {
    const { code, error } = demoToRead().run(words);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});

describe('what was learned', () => {
  it('is recorded by the command that is printed, and then stands in the plans of that person alone', () => {
    const book = demo();
    const [, command = ''] =
      /To plan with it from now on: gapledger (.*)$/m.exec(book.done(['figures', 'aims'])) ?? [];
    const words = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');
    expect(book.done(words)).toContain('felling plans of Dell Pruitt: directionError is');
    const plan = (by: string) => book.done(['plan', 'G3', '--wedges', '--by', by]);
    expect(plan('Dell Pruitt')).toMatch(
      /Recorded for plans of Dell Pruitt \(entry \d+, "15 measured lays"\): directionError is [\d.]+, usually 6; that is looser than usual\./,
    );
    expect(plan('Ines Okafor')).not.toContain('directionError is');
    // The other way round it is refused: nobody goes below the floor without saying so.
    const narrower = [...words.slice(0, words.indexOf('--value')), '--value', '3', '--reason', 'good year'];
    const { code, error } = book.run(narrower);
    expect(code).toBe(2);
    expect(error).toContain('below the floor of 4°');
    book.done([...narrower, '--below-floor', 'yes']);
    expect(plan('Dell Pruitt')).toContain('directionError is 3, usually 6');
  }, 180_000);

  it('cannot be typed below the floor for one plan', () => {
    const { code, error } = demoToRead().run(['plan', 'G3', '--assume', 'directionError=3']);
    expect(code).toBe(2);
    expect(error).toContain('gapledger record felling-default-set');
  });
});
