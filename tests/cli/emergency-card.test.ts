// The emergency card on the command line, and what status says of calls.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { started } from './gapledger.ts';

it('is written as HTML or JSON, can be issued, and unknown parts say what to record', () => {
  const { done, json, path, run } = started();
  done(['record', 'block-laid-out', '--name', 'North cove']);
  done(['record', 'emergency-card-set', '--call-first', '911', '--access-point', '44.123456, -71.654321']);
  done(['report', 'emergency-card', '--out', 'card.html']);
  const page = readFileSync(path('card.html'), 'utf8');
  expect(page).toContain('44° 7.407&#39; N');
  expect(page).toContain('not recorded; record the way in for somebody who was never here');
  const card = json<{ callFirst: { text: string } }>(['report', 'emergency-card', '--block', 'North cove']);
  expect(card.callFirst.text).toBe('911');
  const { out, error } = run(['report', 'emergency-card', '--issue', 'fire warden', '--json']);
  expect(error).toContain('issued to fire warden');
  expect(JSON.parse(out)).toMatchObject({ report: 'emergency-card' });
  expect(done(['log', '--last', '1'])).toContain('report "emergency-card" issued');
});

it('a flag that means nothing to a report, a block and a report that are not there, end with 2', () => {
  const { run } = started();
  for (const [words, sentence] of [
    [
      ['report', 'emergency-card', '--group', 'G1'],
      '--group "G1": it means nothing to the emergency-card report, which takes --block',
    ],
    [
      ['report', '--block', 'North cove'],
      '--block "North cove": it means nothing to the harvest report, which takes --group',
    ],
    [['report', 'emergency-card', '--block', 'nowhere'], 'block "nowhere"'],
    [['report', 'card'], 'report "card": there are harvest and emergency-card'],
  ] as const) {
    const { code, out, error } = run([...words]);
    expect([code, out], error).toEqual([2, '']);
    expect(error).toContain(sentence);
  }
});

it('status shows a call that is expected, and one that is overdue until it was made', () => {
  const { done, json } = started();
  done(['record', 'call-expected', '--due', '2099-03-14 17:00', '--expected-by', 'Joan 555-0164']);
  expect(done(['status'])).toContain('A call is expected by 2099-03-14 17:00.');
  done(['record', 'call-made']);
  expect(done(['status'])).not.toContain('call is expected');
  done(['record', 'call-expected', '--due', '2026-01-14 17:00']);
  expect(done(['status'])).toContain('2026-01-14 17:00: OVERDUE');
  expect(json<{ openCalls: { overdue: boolean }[] }>(['status']).openCalls).toMatchObject([
    { overdue: true },
  ]);
});
