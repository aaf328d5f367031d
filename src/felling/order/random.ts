// Numbers that look random and are the same on every device: for trying out orders, never for what a plan says.

/**
 * Numbers from 0 up to but not including 1, the same ones for the same seed: a linear congruential generator modulo 2^32
 * (multiplier 1664525, increment 1013904223: W. H. Press et al., Numerical Recipes, 1992, from memory), of which
 * the upper 24 bits are used.
 */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
}
