// The cautions as the command line prints them; the text is the report's.
import { cautions } from '../src/reports/index.ts';

/** All cautions, a line each. */
export function cautionLines(): string[] {
  return [cautions.lead, ...cautions.points.map(({ text }) => `- ${text}`), cautions.end];
}

/** What is said when a stem has just been recorded as hung up. */
export function hungUpCaution(): string {
  const points = cautions.points.filter(({ text }) => /hung|lodged/i.test(text));
  return ['Stop.', ...points.map(({ text }) => text)].join(' ');
}
