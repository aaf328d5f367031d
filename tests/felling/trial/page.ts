// The page that says how the trial came out: counts and differences first, ratios second, and where the plan is no better.
import type { GroupResult } from './run.ts';
import type { Outcome } from './simulate.ts';

export type Setting = Readonly<{
  fellings: number;
  seed: number;
  credit: string;
  curve: Readonly<{ a: number; b: number; spread: number; count: number }>;
}>;

const counted = [
  ['hungUp', 'hang-ups'],
  ['saplings', 'saplings lost'],
  ['struck', 'leave trees struck by a bole'],
  ['scraped', 'leave trees scraped by a crown'],
] as const satisfies readonly (readonly [keyof Outcome, string])[];

/** Differences of less than this are called equal: about twice the standard error of a mean of 200 counts. */
const equal = 0.1;

export function trialPage(results: readonly GroupResult[], setting: Setting): string {
  const ways = Object.keys(results[0]?.means ?? {});
  const felled = results.reduce((sum, one) => sum + one.felled, 0);
  const size = results.reduce((sum, one) => sum + one.size, 0);
  const habits = ways.filter((way) => !way.startsWith('plan'));
  return `${[
    '# A trial of the order of felling',
    'Written by `npx tsx tests/felling/trial/run.ts`; the same run gives the same page. It is a trial in a computed wood. It says how orders compare there, and nothing about any fall in the woods.',
    '## What was done',
    described(results, setting),
    `Of ${size} stems the plans fell ${felled} and set ${size - felled} aside as standing, because no order fells them within the limit. The habits were given the same ${felled} stems and the same aims, so that they profit from what the plan sets aside.`,
    '## Counts for each group, means over all groups',
    table(
      ['way', ...counted.map(([, name]) => name), 'falls over the limit'],
      ways.map((way) => [
        way,
        ...counted.map(([what]) => mean(results, way, what).toFixed(2)),
        (results.reduce((sum, { overLimit }) => sum + (overLimit[way] ?? 0), 0) / results.length).toFixed(2),
      ]),
    ),
    '## How many more than the plan',
    'Means of the differences within groups, with their standard error over groups. Below 0: fewer than the plan, which is then worse.',
    table(
      ['way', ...counted.map(([, name]) => name)],
      ways.slice(1).map((way) => [way, ...counted.map(([what]) => difference(results, way, what))]),
    ),
    `## Groups in which the plan has fewer, as many (within ${equal}), more`,
    table(
      ['way', ...counted.map(([, name]) => name)],
      ways.slice(1).map((way) => [way, ...counted.map(([what]) => wins(results, way, what))]),
    ),
    '## Ratios to the plan',
    'Sums over all groups. Above 1: more than the plan.',
    table(
      ['way', ...counted.map(([, name]) => name)],
      ways.slice(1).map((way) => [way, ...counted.map(([what]) => ratio(results, way, what))]),
    ),
    '## Where the plan is no better',
    noBetter(results, habits),
    '## What the plan said and what came',
    `The plans expected ${results.reduce((sum, { plan }) => sum + plan.totals.hangUps, 0).toFixed(1)} hang-ups over all groups; ${(mean(results, 'plan', 'hungUp') * results.length).toFixed(1)} came. The chance that a whole plan goes without a hang-up was ${middle(results.map(({ plan }) => plan.totals.without)).toFixed(2)} at the median.`,
    '## Each group',
    table(
      ['group', 'stems', 'felled', ...ways.map((way) => `${way}: hang-ups / saplings / struck`)],
      results.map(({ size: stems, felled: down, means }, number) => [
        String(number + 1),
        String(stems),
        String(down),
        ...ways.map((way) => {
          const one = means[way];
          return `${one?.hungUp.toFixed(2)} / ${one?.saplings.toFixed(2)} / ${one?.struck.toFixed(2)}`;
        }),
      ]),
    ),
    setting.credit,
  ].join('\n\n')}\n`;
}

function described(results: readonly GroupResult[], { fellings, seed, curve }: Setting): string {
  return [
    `- ${results.length} groups of 8 to 12 stems over 12 cm, those nearest to points drawn in the mapped plot (seed ${seed}); the plot is mirrored at its edges. Groups may overlap. Stems under 4 cm are saplings, all others over 12 cm are leave trees.`,
    `- Positions and diameters are as mapped. Heights by a curve through ${curve.count} heights measured on the plot: ln H = ${curve.a.toFixed(3)} + ${curve.b.toFixed(3)} ln DBH, metres and centimetres, standard deviation ${curve.spread.toFixed(3)}.`,
    '- Invented, for nobody measured them: leans (half normal, 3 % of the height), decay known in a quarter of the stems. The planner sees leans with an error of 0.3 m and 15°, heights by the curve and its own assumption on crowns.',
    `- Each group was felled ${fellings} times with each way in a wood that the planner does not know: heights off the curve, crown radii off by a fifth, crown bases drawn, direction errors of 4° to 9° (1.4 times with decay), part of the side lean not held, boles holding with 0.35 to 0.65 and crowns with 0.05 to 0.15. A stem has the same errors of direction and length in all ways. A hung-up stem is counted and then taken as down.`,
    '- Habits: with the lean, the nearest stem next; to the side where least stands, the nearest next; the best of 1,000 random plans; each time the stem and aim with the least harm now. The last two weigh a hang-up as 50 saplings. None looks at the limit. Because what cannot be aimed at is left out for all, the lean itself is not always among the aims.',
  ].join('\n');
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

function differences(results: readonly GroupResult[], way: string, what: keyof Outcome): number[] {
  return results.map(({ means }) => (means[way]?.[what] ?? 0) - (means.plan?.[what] ?? 0));
}

function mean(results: readonly GroupResult[], way: string, what: keyof Outcome): number {
  return results.reduce((sum, { means }) => sum + (means[way]?.[what] ?? 0), 0) / results.length;
}

function difference(results: readonly GroupResult[], way: string, what: keyof Outcome): string {
  const all = differences(results, way, what);
  const middleOf = all.reduce((sum, one) => sum + one, 0) / all.length;
  const square = all.reduce((sum, one) => sum + (one - middleOf) ** 2, 0) / (all.length - 1);
  const sign = middleOf < 0 ? '−' : '+';
  return `${sign}${Math.abs(middleOf).toFixed(2)} ± ${Math.sqrt(square / all.length).toFixed(2)}`;
}

function wins(results: readonly GroupResult[], way: string, what: keyof Outcome): string {
  const all = differences(results, way, what);
  const fewer = all.filter((one) => one > equal).length;
  const more = all.filter((one) => one < -equal).length;
  return `${fewer}, ${all.length - fewer - more}, ${more}`;
}

function ratio(results: readonly GroupResult[], way: string, what: keyof Outcome): string {
  return (mean(results, way, what) / mean(results, 'plan', what)).toFixed(2);
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

function noBetter(results: readonly GroupResult[], habits: readonly string[]): string {
  const lines = habits.flatMap((way) =>
    counted.flatMap(([what, name]) => {
      const all = differences(results, way, what);
      const sum = all.reduce((total, one) => total + one, 0) / all.length;
      return sum > equal
        ? []
        : [
            `- ${name}: “${way}” has ${sum < -equal ? 'fewer' : 'as many'} on average (${difference(results, way, what)}).`,
          ];
    }),
  );
  return lines.length === 0
    ? 'On average, nowhere. In single groups it is; see the counts of groups.'
    : lines.join('\n');
}
