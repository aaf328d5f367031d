// What the decay measured at a stump costs the butt log: taking the log with its cull, or cutting the butt off first.
import {
  type ButtChoices,
  type ButtLog,
  buttChoices,
  doyle,
  internationalFormula,
  type NotEnough,
  notEnough,
  type SoundShell,
  scribnerFormula,
  soundShell,
  type Volume,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import { lengthOf } from './length.ts';

/** Rules that scale any size of log; a table would answer for the sizes in it only. */
export const buttRules = ['doyle', 'scribner', 'international-quarter-inch'] as const;
export type ButtRule = (typeof buttRules)[number];

const scales: Readonly<Record<ButtRule, (smallEnd: number, length: number) => Volume<ButtRule> | NotEnough>> =
  {
    doyle,
    scribner: scribnerFormula,
    'international-quarter-inch': (smallEnd, length) => internationalFormula(smallEnd, length),
  };

export type ButtFigures = Readonly<{
  stem: string;
  choices: ButtChoices<ButtRule> | NotEnough;
  shell: SoundShell | NotEnough;
  restsOn: readonly string[];
}>;

/**
 * @param stem id of a stem
 * @param log scaling diameter at the small end, in, and scaling length, ft, of the butt log as it would be cut sound
 * @param price money for a thousand board feet of the log with its cull, and of the log without its butt
 */
export function buttFigures(
  { stand }: Folded,
  stem: string,
  log: ButtLog,
  rule: ButtRule,
  price?: Readonly<{ withCull: number; jumpButted: number; currency: string }>,
): ButtFigures {
  const { decay, felling } = stand.stems.get(stem) ?? {};
  const restsOn = [felling?.entry, decay?.entry].filter((entry) => entry !== undefined);
  if (decay === undefined) {
    const unexamined = notEnough('nobody recorded what the stump showed ("decay measured").');
    return { stem, choices: unexamined, shell: unexamined, restsOn };
  }
  const { found, upTheButt, diameter, shell, stumpDiameter } = decay.body;
  const sound = found === 'none' || found === 'stain';
  const choices = buttChoices(
    log,
    {
      upTheButt: sound ? 0 : (lengthOf(upTheButt, 'ft') ?? null),
      diameter: sound ? 0 : (lengthOf(diameter, 'in') ?? null),
    },
    {
      scale: scales[rule],
      ...(price === undefined
        ? {}
        : { money: { withCull: worth(price.withCull, price), jumpButted: worth(price.jumpButted, price) } }),
    },
  );
  return { stem, choices, shell: shellOf(stumpDiameter ?? felling?.details.stumpDiameter, shell), restsOn };
}

type Entered = Parameters<typeof lengthOf>[0];

function shellOf(stump: Entered, shell: Entered): SoundShell | NotEnough {
  const across = lengthOf(stump, 'in');
  const thickness = lengthOf(shell, 'in');
  if (across === undefined) return notEnough('the diameter of the stump');
  if (thickness === undefined) return notEnough('the thinnest sound wood around the decay');
  return soundShell(across, thickness);
}

function worth(perThousand: number, { currency }: Readonly<{ currency: string }>) {
  return (net: Volume<ButtRule>) => ({
    value: (net.value / 1000) * perThousand,
    unit: currency,
    method: `${net.method}; × ${perThousand} ${currency} per Mbf`,
    source: `${net.source}; price as asked`,
  });
}
