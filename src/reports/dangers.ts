// What can hurt somebody, as facts with the entries that they rest on: said before anything else, wherever it is said.
import { type Hazard, hazardWords, type Stem, stemLabel } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { Fact } from './model.ts';

export function dangerFacts(
  context: Context,
  { hungUp, hazards }: Readonly<{ hungUp: readonly Stem[]; hazards: readonly Hazard[] }>,
): Fact[] {
  const { stand } = context.folded;
  const hanging = hungUp.map((stem) =>
    known(
      `${stemLabel(stem)} is recorded as hung up. Keep everybody at least two tree lengths away; get trained help.`,
      context.numbers([stem.felling?.entry]),
    ),
  );
  const open = hazards.map((hazard) =>
    known(
      `Open hazard: ${hazardWords(stand, hazard)}. Keep away until it is dealt with.`,
      context.numbers(hazard.entries),
    ),
  );
  return [...hanging, ...open];
}
