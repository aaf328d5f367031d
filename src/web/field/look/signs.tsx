// The page's own symbols: line drawings on a square of 24, each with words beside it wherever it stands.
import type { JSX } from 'preact';

const drawings = {
  /** A stem with a notch taken out of it and a cut across. */
  cut: 'M9 2v9l5 2-5 2v7M17 2v20M5 22h16M17 15l-3 0',
  /** A stem within a ring: nobody comes in. */
  leave: 'M12 6v12M8 18h8M12 2a10 10 0 1 0 .01 0',
  /** A thin stem with two leaves. */
  sapling: 'M12 22V9M12 12C7 12 5 9 5 5c4 0 7 3 7 7M12 10c0-4 3-6 7-6 0 4-3 6-7 6',
  /** A limb that hangs from a broken end. */
  hazard: 'M5 2v20M5 10l7-4M14 8l3.5 12M15.2 12l5 1.5M16.3 16l-4 3',
  /** A stem that leans into another. */
  hungUp: 'M18 2v20M3 22L18 7M2 22h20M14 22l4-3',
  /** A stem on the ground beside its stump. */
  down: 'M3 22v-6h4v6M10 18h12M10 22h12M10 18v4M1 22h22',
  /** A round of wood with a hole that is not round. */
  rot: 'M12 2a10 10 0 1 0 .01 0M9 9c3-3 7-1 6 2s2 4-1 6-7 1-7-2 0-4 2-6',
  damage: 'M7 2v20M17 2v20M7 8l5 2-3 3 4 2-6 3',
  photo: 'M3 7h4l2-3h6l2 3h4v13H3zM12 9a4.5 4.5 0 1 0 .01 0',
  note: 'M5 2h14v20H5zM8 7h8M8 11h8M8 15h5',
  tag: 'M4 12l8-9h8v18h-8zM15.5 12h.01',
  stake: 'M9 3h6v14l-3 5-3-5zM9 7h6',
  opening: 'M12 3c4 0 8 3 8 8s-3 10-8 10-9-3-8-9 3-9 8-9M12 9v0M9 14h6M12 11v6',
  /** A telephone that calls. */
  help: 'M6 3h7v18H6zM9 18h1M16 8c2 2 2 6 0 8M19 5c4 4 4 10 0 14',
  back: 'M14 4l-8 8 8 8M6 12h15',
  send: 'M12 16V3M7 8l5-5 5 5M4 14v7h16v-7',
  place: 'M12 2v5M12 17v5M2 12h5M17 12h5M12 8a4 4 0 1 0 .01 0',
  list: 'M4 6h2M9 6h11M4 12h2M9 12h11M4 18h2M9 18h11',
  strike: 'M3 12h18M6 7h12M6 17h12',
  gear: 'M4 7h10M18 7h2M16 5v4M4 17h4M12 17h8M10 15v4',
  more: 'M4 4h6v6H4zM14 4h6v6h-6zM4 14h6v6H4zM17 14v6M14 17h6',
  yes: 'M4 13l5 6L20 5',
} as const;

export type SignName = keyof typeof drawings;

/** A symbol beside its words; it says nothing to those who listen. */
export function Sign({ of }: Readonly<{ of: SignName }>): JSX.Element {
  return (
    <svg class="symbol" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path
        d={drawings[of]}
        fill="none"
        stroke="currentColor"
        stroke-width="2"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}
