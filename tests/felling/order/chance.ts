// Small problems that no wood would give: chances and stems in the way drawn at random, ties among them.
import { type OrderProblem, seeded } from '../../../src/felling/index.ts';

/** @param aims how many aims each stem has */
export function randomProblem(count: number, aims: number, seed: number): OrderProblem {
  const random = seeded(seed * 7919 + 17);
  for (let skip = 0; skip < 5; skip += 1) random();
  const pick = (): number => Math.floor(random() * count);
  const stems = Array.from({ length: count }, (_, stem) => ({
    id: `R${stem}`,
    choices: Array.from({ length: random() < 0.05 ? 0 : aims }, (__, aim) => ({
      aim: aim * 30,
      // Now and then equal losses and nothing in the way, so that there are ties to break.
      loss: Math.round(random() * 8) / 4,
      segments:
        random() < 0.2
          ? []
          : Array.from({ length: 3 }, () => ({
              weight: random() / 3,
              always: random() < 0.7 ? 1 : 0.8 + 0.2 * random(),
              holds: Array.from({ length: count }, (___, other) => other)
                .filter((other) => other !== stem && random() < 0.5)
                .map((other) => ({
                  stem: other,
                  survival: [0.5, 0.9, 0, random()][Math.floor(4 * random())] ?? 1,
                })),
            })),
    })),
  }));
  const [a, b] = [pick(), pick()];
  return {
    stems,
    // Earlier numbers before later ones, so that there is no circle.
    before: [
      ...(a < b && random() < 0.7 ? [[a, b] as const] : []),
      ...(random() < 0.2 ? beforeAll(0, count) : []),
    ],
    last: random() < 0.3 && count > 2 ? [count - 1] : [],
    limit: 0.4,
    tolerance: [0, 0.05, 0.2][seed % 3] ?? 0,
  };
}

/** One stem before all others, as a hazard is. */
export function beforeAll(stem: number, count: number): (readonly [number, number])[] {
  return Array.from({ length: count }, (_, other) => other)
    .filter((other) => other !== stem)
    .map((other) => [stem, other] as const);
}
