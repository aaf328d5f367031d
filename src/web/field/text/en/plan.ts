// The felling plan: what comes next, what is set aside, and that it holds no longer. Loaded with its screens.
import type { Aim, Explanation, FellingPlan, Risk } from '../../../../felling/index.ts';
import { figure } from '../format.ts';
import { plural } from './common.ts';

type Over = FellingPlan['after']['crossings']['pairs'][number]['over'];
type Told = NonNullable<FellingPlan['measureFirst']>['measurements'][number];
type Landmark = NonNullable<Explanation['landmark']>;
type Field = 'crown base' | 'crown radius' | 'lean' | 'lean error' | 'height error';

const how: Readonly<Record<Risk['how'], string>> = {
  bole: 'struck by the bole',
  crown: 'under the crown',
  holds: 'holds it: it hangs',
  reaches: 'reached',
  share: 'share of it lost',
};
const measures: Readonly<Record<Field, string>> = {
  'crown base': 'where its crown begins',
  'crown radius': 'how wide its crown is',
  lean: 'which way it leans and how far',
  'lean error': 'how well the lean is known',
  'height error': 'its height (taken from others, or by eye)',
};

/** Never 0 and never 100: only what was entered is known. */
function percent(share: number): string {
  if (share < 0.005) return 'under 1 %';
  return share > 0.995 ? 'over 99 %' : `${figure(100 * share)} %`;
}

/** "sapling S3", and "C2" where it is a stem of the group, which people know by its tag. */
function named({ kind, label }: Readonly<{ kind: string; label: string }>): string {
  return kind === 'stem' || label.startsWith(kind) || label.startsWith('the ') ? label : `${kind} ${label}`;
}

/** What a choice that was only just refused would add. */
function instead(what: string, hangUps: number, loss: number): string {
  const [chances, worth] = [figure(Math.abs(hangUps), 2), figure(Math.abs(loss), 1)];
  if (chances === '0' && worth === '0') return `Just as good by this model: ${what}.`;
  const sign = (value: number) => (value < 0 ? '−' : '+');
  return `Only just decided against: ${what}, ${sign(hangUps)}${chances} hang-ups, ${sign(loss)}${worth} saplings' worth.`;
}

export const plan = {
  title: (group: string) => `Felling plan, ${group}`,
  noGroup: 'Take a group in hand first; a plan is made for one group.',
  cautions: 'All the cautions',
  working: 'Working it out from what is recorded. The page can be used meanwhile.',
  no: (why: string) => `There is no plan. ${why}`,
  noThread: 'This browser could not work it out. Plan at the desk.',
  nothing: 'No stem of the group can be planned as entered.',

  adopted: (left: number, of: number) =>
    `Adopted, and nothing recorded speaks against it so far. ${figure(left)} of ${figure(of)} still to fall.`,
  adoptedOnly: (why: string) =>
    `It could not be worked out again on this phone. ${why} Below stands what was adopted.`,
  notAdopted: 'Not adopted yet. Look at every stem before you take it on.',
  anewOver: 'A plan is adopted. What you see here takes its place only when you adopt it.',
  backToAdopted: 'Back to the adopted plan',
  anew: 'Change it, plan anew',
  adopt: 'Adopt this plan',
  adoptUnder: 'it ends when anything turns out otherwise',
  itIsDown: (tag: string) => `${tag} is down, or hangs`,

  aside: 'Set aside, still standing',
  asideLead: 'No aim was found acceptable. Nothing below counts on felling them.',
  totals: (without: number, hangUps: number, loss: number) =>
    `By this model the whole plan goes without a hang-up with a chance of ${percent(without)}. Expected: ${figure(hangUps, 2)} hang-ups, ${figure(loss, 2)} saplings' worth lost. It is planned again after every fall.`,
  stopBefore: (tag: string, reason: string) => `Stop before ${tag}: ${reason}`,
  next: 'Next',
  rest: 'After that',
  inOrder: (place: number, tag: string, aim: string, chance: number) =>
    `${figure(place)}. ${tag}: ${aim}, hangs up ${percent(chance)}`,

  magnetic: (degrees: number) => `${figure(degrees)}° magnetic`,
  true: (degrees: number) => `${figure(degrees)}° true`,
  noMagnetic: 'no declination is known here: set the compass to true north',
  toward: 'Toward',
  noLandmark: 'nothing recorded stands or lies near this line',
  landmark: ({ kind, label, off }: Landmark, far: string) => {
    const what =
      kind === 'stump' ? `the stump of ${label.replace(/^the stump of /, '')}` : named({ kind, label });
    const beside =
      Math.abs(off) < 1 ? '' : `, aim ${figure(Math.abs(off))}° ${off > 0 ? 'right' : 'left'} of it`;
    return `${what}, ${far}${beside}`;
  },
  band: 'Room',
  side: (degrees: number, side: 'left' | 'right', reaches: Explanation['band']['left']['reaches']) =>
    `${figure(Math.floor(degrees))}°${reaches === undefined ? ' or more' : ''} to the ${side}${reaches === undefined ? '' : `, then it reaches ${named(reaches)}`}`,
  method: 'How',
  methods: {
    'with the lean': 'with the lean',
    wedges: 'wedges',
    winch: 'winch, trained people only',
  } satisfies Record<Aim['method'], string>,
  wedging: (lift: string, backLean: string) => `wedges: lift ${lift} for a back lean of ${backLean}`,
  afterwards: { 'can roll': 'it can roll once it lies', 'can slide': 'it can slide once it lies' },
  chance: 'Hangs up',
  percent,
  risks: 'At risk',
  noRisks: 'nothing that was entered, beyond one in a thousand',
  risk: ({ what, label, how: by, chance }: Risk) => {
    const thing = what === 'hang-up' || what === 'broken over' ? label : named({ kind: what, label });
    return `${thing}: ${what === 'broken over' ? 'broken over, falls with it' : how[by]}, ${percent(chance)}`;
  },
  onceDown: 'Once it is down',
  across: ({ kind, label }: Over, chance: number) =>
    `lies across ${kind === 'stump' ? `the stump of ${label}` : label}: ${percent(chance)}`,
  rolls: (chance: number) => `lies across the slope, where it can roll: ${percent(chance)}`,
  tension:
    'Stems that cross lie under tension, and one across a slope can roll when it is cut. Nobody stays below it.',
  ways: 'Ways out',
  way: (side: 'left' | 'right', aim: string, blocked: readonly string[], steep: boolean) =>
    `${side}, ${aim}: ${blocked.length === 0 ? 'nothing entered stands in it' : `BLOCKED by ${blocked.join(', ')}`}${steep ? ', climbs' : ''}`,
  notch: 'Notch and hinge',
  hinge: (depth: string, thickness: string, sound: string, wanted: string) =>
    `notch ${depth} deep; hinge ${thickness} thick; of ${wanted} of hinge wanted ${sound} is sound wood`,
  rot: 'Sound wood is as it was entered. Look at the chips: rot that nobody saw may be there.',
  sapling: (label: string, lies: string, on: string, note: string) =>
    `${label} at the stump, ${lies}, on the ${on}: ${note}`,
  against: (side: 'left' | 'right', what: readonly string[]) => `Against the ${side}: ${what.join(' ')}`,
  assumed: 'Nobody measured',
  measure: (field: Field) => measures[field],
  closeAim: (aim: string, hangUps: number, loss: number) => instead(`aim ${aim}`, hangUps, loss),
  closeStem: (tag: string, hangUps: number, loss: number) => instead(`${tag} at this place`, hangUps, loss),

  thisNext: 'This one next',
  thisNextUnder: 'and plan again',
  fix: 'Another aim for it',
  fixGo: 'Aim it so, plan again',
  settled: 'Settled by you',
  settledAim: (tag: string, aim: string) => `${tag} aimed at ${aim}`,
  settledNext: (tag: string) => `${tag} next`,
  takeOut: 'Take it out',

  atHand: 'At hand, wind, slope, people',
  tools: 'At hand',
  wedges: 'Wedges',
  winch: 'Winch, and people trained for it',
  wind: 'Wind, mean; calm if not typed',
  slope: 'Slope of the ground',
  downhill: 'Straight down the slope',
  people: 'Where people work or stay',
  peopleHint: 'such as: landing at 135 mag, 400 ft from stake A. Nothing is planned near them.',

  measure1st: 'What should be measured first?',
  measure1stUnder: 'takes longer than the plan',
  measureFirst: 'Measure first',
  measureNothing: (lookedAt: number) =>
    `Nothing stands out: of ${figure(lookedAt)} things that are not known exactly none would change the plan by itself.`,
  measureOne: ({ of, what, label, basis }: Told['what'], value: string, error: string) =>
    `${what} of ${named({ kind: of, label })}: ${what === 'lean' && basis === 'assumed' ? 'nobody noted it' : [value, basis].filter((part) => part !== '').join(' ')} (give or take ${error})`,
  measureShows: ({ how: { says }, overLimit, setAside, takenUp, more }: Told) => {
    const results = [
      ...(overLimit.length === 0 ? [] : [`${overLimit.join(', ')} could not be felled as planned`]),
      ...(setAside.length === 0 ? [] : [`${setAside.join(', ')} would have to stay`]),
      ...(takenUp.length === 0 ? [] : [`${takenUp.join(', ')} could be felled after all`]),
      ...(more.hangUps < 0.005
        ? []
        : [`the plan would mean ${figure(more.hangUps, 2)} more hang-ups than another`]),
    ];
    return `If it ${says}: ${results.length === 0 ? 'another order or aim would do better' : results.join('; ')}.`;
  },

  exact: 'No order of these stems and aims does better by this model.',
  searched: (hangUps: number, loss: number) =>
    `Searched, not proved: another order may have up to ${percent(hangUps)} fewer expected hang-ups, and up to ${percent(loss)} less loss.`,
  limit: (share: number) => `A fall with a chance of hanging up over ${percent(share)} is never planned.`,
  changed: (name: string, value: number, usual: number, recorded: string | undefined) =>
    `Assumption changed: ${name} is ${figure(value, 3)}, usually ${figure(usual, 3)}${recorded === undefined ? '' : `; recorded for you: ${recorded}`}.`,
  unplaced: (label: string, why: string) => `Not in the plan, because it has no place: ${label}. ${why}`,
  moreUnplaced: (count: number) =>
    `And ${figure(count)} ${plural(count, 'more has', 'more have')} no place; "gapledger plan" at the desk names them all.`,
  notEntered: 'What nobody entered is not in it: brush, vines, wires, dead limbs overhead, people.',

  ended: (group: string) => `The adopted plan for ${group}`,
  endedTitle: 'The plan no longer holds. Stop.',
  endedThen: 'What stands below is worked out anew from what is recorded now.',
  planAnew: 'Plan anew from how it is now',
  putAway: 'I have read this. Put the plan away',
  putAwayUnder: 'it stays in the record',

  open: (count: number) => `Plan the felling of ${figure(count)} ${plural(count, 'stem', 'stems')}`,
  openUnder: 'which first, which way, what is at risk',
  nextByPlan: (tag: string) => `Next by the plan: ${tag}`,
  nextUnder: (aim: string, left: string, right: string) => `aim ${aim}; room ${left}° left, ${right}° right`,
  endedUnder: 'Touch to see why.',

  wasAimed: 'It was aimed',
  byThePlan: (aim: string) => `as planned, ${aim}`,
  elsewhere: 'elsewhere, or not known',
  aimIsNoLay: 'That is what was meant. How it lies is asked below.',
} as const;
