// Felling plans on the terminal, on the invented demo woodlot. The numbers are held against worked cases elsewhere; here it is
// what is said with them, and that nothing is planned for what was not entered well enough.
import { describe, expect, it } from 'vitest';
import { demo, demoToRead, started } from './gapledger.ts';

describe('gapledger plan', () => {
  it('shows the cautions first, then what is set aside with the reason, then the order', () => {
    const out = demoToRead().done(['plan', 'G2']);
    const [caution, aside] = [out.indexOf('Felling kills.'), out.indexOf('Set aside, still standing')];
    expect(caution).toBeGreaterThanOrEqual(0);
    expect(aside).toBeGreaterThan(caution);
    expect(out).toContain('Leave it standing: that is a choice too.');
    expect(out).toMatch(/What nobody entered is not in it/);
  });

  it('never says that anything is safe, and never that something is certain', () => {
    for (const words of [
      ['plan', 'G3', '--wedges'],
      ['plan', 'G2', '--wedges', '--winch'],
    ]) {
      const out = demoToRead().done(words);
      expect(out).not.toMatch(/\bsafe/i);
      expect(out).not.toMatch(/\b(?:0|100) %/);
    }
  });

  it('names what was assumed because nobody measured it', () => {
    expect(demoToRead().done(['plan', 'G3', '--wedges'])).toMatch(/Assumed, not measured: lean of C1/);
  });

  it('keeps an aim that is settled, and says why another cannot be kept', () => {
    const out = demoToRead().done(['plan', 'G3', '--wedges', '--fix', 'C1=180 true']);
    expect(out).toMatch(/^C1 +180\.0°/m);
    const { code, error } = demoToRead().run(['plan', 'G3', '--fix', 'C1=180 true']);
    expect(code).toBe(2);
    expect(error).toContain('C1 cannot be aimed at 180°');
  });

  it('is adopted by an entry, and does not hold any more once a stem hung up', () => {
    const book = demo();
    expect(book.done(['plan', 'G3', '--wedges', '--adopt'])).toContain('felling plan for G3');
    expect(book.done(['plan', 'G3', '--wedges'])).not.toContain('no longer holds');
    book.done(['record', 'stem-felled', '--stem', 'C1', '--came', 'hung-up']);
    const out = book.done(['plan', 'G3', '--wedges']);
    expect(out).toContain('The plan that was adopted no longer holds. Stop.');
    expect(out).toContain('C1 hung up.');
    // The report and the replay hold the plan against what happened.
    const report = book.done(['report']);
    for (const said of ['Felling plan, and what became of it', 'Hung up: C1', 'The plan ended: C1 hung up.'])
      expect(report).toContain(said);
    expect(book.done(['replay', 'G3'])).toContain(
      'Lay not measured, so nothing is learned from it: C1 (1 of 1).',
    );
  }, 180_000);

  it.each([
    [['plan', 'G9'], 'G9'],
    [['plan', 'G1'], 'G1'],
    [['plan', 'G3', '--fix', 'C1'], 'no pair'],
    [['plan', 'G3', '--fix', 'C1=95'], '95 mag'],
    [['plan', 'G3', '--before', 'C1=C1'], 'C1'],
    [['plan', 'G3', '--before', 'C1=C2, C2=C1'], 'C1'],
    [['plan', 'G3', '--assume', 'luck=1'], 'luck'],
    [['plan', 'G3', '--assume', 'directionError=900'], 'out of range'],
    [['plan', 'G3', '--slope', '20 %'], 'downhill'],
    [['plan', 'G3', '--wind', 'breezy'], 'metres a second'],
    [['plan', 'G3', '--people', 'landing at the truck'], 'so nothing is planned'],
    [['worksheet', 'C1', '--notch', 'none'], 'open face, conventional, humboldt'],
    [['worksheet', 'A99'], 'A99'],
  ])('%j is refused and says what to write', (words, sentence) => {
    const { code, error } = demoToRead().run(words);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});

describe('a plan on the command line', () => {
  it('sets aside every stem that has people nearer than two tree lengths, and says so', () => {
    const out = demoToRead().done([
      'plan',
      'G3',
      '--wedges',
      '--people',
      'landing at 90 true, 10 ft from stem C1',
    ]);
    expect(out).toMatch(/- C1: People are within 2 tree lengths of it \(landing, 10\.0 ft/);
    expect(out).not.toMatch(/^C1 +\d/m);
  });

  it('says what comes to lie across what, what can roll, what each alternative costs and what is only just decided', () => {
    const out = demoToRead().done(['plan', 'G2', '--wedges', '--slope', '25 %', '--downhill', '200 true']);
    for (const said of [
      'What it would add to the whole plan',
      'Only just decided:',
      'stems that can roll once they lie',
    ])
      expect(out).toContain(said);
    expect(demoToRead().done(['plan', 'G3', '--wedges'])).toContain('No slope was said');
  });

  it('says what to measure first only when it is asked to', () => {
    expect(demoToRead().done(['plan', 'G3', '--wedges', '--measure-next'])).toMatch(/^Measure first: /m);
    expect(demoToRead().done(['plan', 'G3', '--wedges'])).not.toContain('Measure first');
  });

  it('keeps a stem that is doubtful to a property line unplanned until a consent is recorded', () => {
    const place = started();
    place.done(['record', 'stake-set', '--label', 'S', '--position', '35.9532, -81.7461']);
    // An old fence two feet south of the stem: nobody knows it to two feet.
    const corners = [
      '35.9532045, -81.7466549',
      '35.9532045, -81.7455451',
      '35.9541, -81.7455451',
      '35.9541, -81.7466549',
    ];
    place.done(['record', 'block-laid-out', '--name', 'North', '--boundary', corners.join('; ')]);
    place.done([
      'record',
      'boundary-evidence-noted',
      '--block',
      'North',
      '--line',
      '1',
      '--evidence',
      'old-fence',
    ]);
    place.done(['record', 'group-laid-out', '--label', 'G2', '--block', 'North']);
    const stem = {
      mark: 'cut',
      tag: 'B',
      group: 'G2',
      dbh: '14 in',
      height: '60 ft',
      lean: '3 ft at 0 true',
    };
    const words = Object.entries({ ...stem, position: '87 true, 66 ft from stake S' });
    place.done(['record', 'stem-marked', ...words.flatMap(([name, value]) => [`--${name}`, value])]);
    const before = place.done(['plan', 'G2', '--wedges']);
    expect(before).toMatch(
      /- B: It .*, and no consent of the neighbour is recorded\. Nothing is planned for it/,
    );
    expect(before).not.toMatch(/^B +\d/m);
    place.done(['record', 'neighbour-consent-noted', '--stems', 'B', '--agreed', 'the line tree may be cut']);
    const after = place.done(['plan', 'G2', '--wedges']);
    expect(after).not.toContain('no consent');
    // Set aside it may still be, for what it could reach beyond the line; but it is looked at.
    expect(after).toMatch(/^B +\d|^- B stays/m);
  });

  it.each([
    [{ lean: '80 ft at 90 true' }, 'Stem B leans 80.0 ft (24.4 m), and it is 60.0 ft (18.3 m) high'],
    [{ position: '0 true, 3 ft from stake S' }, 'Stems A and B stand at the same point'],
    [{ height: '' }, 'Stem B has no height'],
  ])('is refused for a stem with %j, with what to do', (more, sentence) => {
    const place = started();
    place.done(['record', 'stake-set', '--label', 'S', '--position', '35.9532, -81.7461']);
    place.done(['record', 'group-laid-out', '--label', 'G1']);
    const usual = { mark: 'cut', group: 'G1', dbh: '14 in', height: '60 ft', lean: '3 ft at 0 true' };
    const mark = (fields: Readonly<Record<string, string>>) =>
      place.done([
        'record',
        'stem-marked',
        ...Object.entries({ ...usual, ...fields }).flatMap(([name, value]) =>
          value === '' ? [] : [`--${name}`, value],
        ),
      ]);
    mark({ tag: 'A', position: '0 true, 3 ft from stake S' });
    mark({ tag: 'B', position: '90 true, 30 ft from stake S', ...more });
    const { code, error } = place.run(['plan', 'G1']);
    expect(code).toBe(2);
    expect(error).toContain(sentence);
  });
});

describe('gapledger worksheet', () => {
  it('puts the hinge into what boring a standing stem showed to be sound, and stops where nobody bored', () => {
    const book = demo();
    const sheet = () => book.done(['worksheet', 'D2', '--wedges']);
    const bored = (...found: string[]) => book.done(['record', 'stem-measured', '--stem', 'D2', ...found]);
    expect(sheet()).toContain('nobody knows how much of it is sound wood');
    expect(sheet()).toMatch(/nobody measured how much sound wood is left.*Stop\./);
    bored('--shell', '4 in');
    expect(sheet()).not.toContain('nobody measured');
    // 4 in of 7.55 in radius: 1 − (1 − 0.53)^4 of the bending strength of a hollow ring (Coder 2000's t/R, the ratio from mechanics).
    expect(sheet()).toContain('thickness 0.53 of the radius, 95 % of the bending strength left');
    bored('--pocket', '205 mag', '--pocket-depth', '5 in', '--pocket-around', '9 in');
    expect(sheet()).toMatch(/Why so deep +usual is 3\.8 in; it takes 4\.\d in/);
    // On the other side the pocket is no reason to go deeper.
    bored('--pocket', '25 mag');
    expect(sheet()).not.toContain('Why so deep');
  }, 120_000);

  it('gives notch, hinge and ways out for one stem, and that unseen rot may be there', () => {
    const out = demoToRead().done(['worksheet', 'C1', '--wedges']);
    for (const said of ['Notch', 'Hinge', 'Bore cut', 'way out left', 'Rot that nobody saw'])
      expect(out).toContain(said);
    expect(out).not.toMatch(/\bsafe/i);
  });
});
