// An opening that lies on the map, and what is asked of openings.
import type { System } from '../../measure/index.ts';
import type { OpeningArea } from '../openings/area.ts';
import type { Group } from '../state.ts';

export type OpeningsAsked = Readonly<{
  system: System;
  /** Ids; all openings if left out. */
  group?: string;
  block?: string;
  /** Years of the rolling period. */
  period: number;
}>;

/** An opening that lies on the map. */
export type PlacedOpening = Readonly<{ group: Group; area: OpeningArea }>;
