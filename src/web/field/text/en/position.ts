// Where something is: a fix, a stake and a tape, or later. Never in the way of saving.
import { figure } from '../format.ts';
import { plural, span } from './common.ts';

export const position = {
  title: 'Where',
  later: 'Later',
  fix: 'Take a fix',
  tape: 'From a stake',
  stem: 'From a stem',
  latersays: 'Nothing is kept for now; it can be measured again at any time.',
  averaging: (fixes: number, left: number) =>
    `${figure(fixes)} ${plural(fixes, 'fix', 'fixes')} so far, ${figure(left)} s to go. Stand still.`,
  waiting: 'Waiting for the first fix. Keep the phone in the open, away from your body.',
  taken: (accuracy: string, fixes: number, age: string) =>
    `±${accuracy} from ${figure(fixes)} ${plural(fixes, 'fix', 'fixes')}, taken ${age} ago`,
  poor: (accuracy: string) =>
    `POOR: ±${accuracy}. Under a canopy that is common; measure from a stake instead if it matters.`,
  stale: (age: string) => `OLD: taken ${age} ago. Take it again if you have moved.`,
  staleFix: 'The phone gave a fix from before; it was not used.',
  denied:
    'The phone does not let this page know where it is. Allow location for this page in the browser, or measure from a stake. Everything else can be kept without it.',
  unavailable: 'The phone has no fix here. Try in the open, measure from a stake, or leave it for later.',
  slow: 'No fix came in time. Try again, measure from a stake, or leave it for later.',
  insecure:
    'Location works only over a trusted connection (https). Measure from a stake, or pair this phone again by the guide.',
  none: 'This phone gives no location. Measure from a stake, or leave it for later.',
  again: 'Take it again',
  stop: 'That is enough',
  howLong: 'Average over',
  seconds: (seconds: number) => `${figure(seconds)} s`,
  from: 'From which stake?',
  fromStem: 'From which stem?',
  noStakes: 'No stake is recorded. Set one, take a fix, or leave it for later.',
  azimuth: 'Azimuth from there',
  distance: 'Distance',
  slope: 'Slope of the ground, if the tape lay on it',
  incomplete: 'not there yet; put it in, or save without a place',
  without: 'Save without a place',
  source: (fixes: number, seconds: number) =>
    `phone, ${fixes} ${plural(fixes, 'fix', 'fixes')} in ${seconds} s`,
  short: {
    none: 'not taken',
    fix: (accuracy: string) => `fix, ±${accuracy}`,
    tape: 'from a stake',
  },
  age: span,
} as const;
