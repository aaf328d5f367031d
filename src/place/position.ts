/** Positions: how a person entered one, and what it resolves to. Types only, apart from one guard. */

/** A quantity as it was entered: the text, its value as a decimal string, its unit. */
export type Quantity = { readonly text: string; readonly value: string; readonly unit: string };

/** An azimuth as it was read, clockwise from the north it refers to, in degrees. `grid` names its reference system. */
export type Azimuth = {
  readonly text: string;
  readonly value: string;
  readonly reference: 'mag' | 'true' | 'grid';
  /** With `grid`: the system whose north is meant, for example "EPSG:2264". */
  readonly crs?: string;
};

/** Longitude and latitude, WGS 84, degrees, east and north positive. */
export type LonLat = { readonly lon: number; readonly lat: number };

/** What an offset is measured from: a stake or a stem, by its id. */
export type AnchorReference = { readonly stake: string } | { readonly stem: string };

/** A distance taped to a known point. */
export type Taped = {
  readonly from: AnchorReference;
  readonly distance: Quantity;
  /** Slope of the ground the tape lay on, unit `%` or `deg`. Without it the distance counts as horizontal. */
  readonly slope?: Quantity;
};

/** One of several fixes that are averaged. */
export type OneFix = { readonly lat: string; readonly lon: string; readonly accuracy?: Quantity };

/** A side of a line, as seen along it. */
export type Side = 'left' | 'right';

/** A position as it was entered. Resolving it is the fold's work: {@link PositionEntered} never changes. */
export type PositionEntered =
  | {
      readonly how: 'fix';
      readonly lat: string;
      readonly lon: string;
      readonly accuracy?: Quantity;
      readonly fixedAt?: string;
      readonly source?: string;
    }
  | {
      readonly how: 'grid';
      readonly crs: string;
      readonly easting: string;
      readonly northing: string;
      readonly accuracy?: Quantity;
    }
  | {
      readonly how: 'offset';
      readonly from: AnchorReference;
      readonly azimuth: Azimuth;
      readonly distance: Quantity;
      /** Slope of the ground the tape lay on, unit `%` or `deg`. Without it the distance counts as horizontal. */
      readonly slope?: Quantity;
    }
  /** From two known points or more; two leave two answers, and `side` says which: as seen from the first to the second. */
  | { readonly how: 'distances'; readonly taped: readonly Taped[]; readonly side?: Side }
  /** Several fixes of one place, averaged. */
  | { readonly how: 'average'; readonly fixes: readonly OneFix[] }
  | { readonly how: 'local'; readonly block: string; readonly x: Quantity; readonly y: Quantity }
  | { readonly how: 'unknown' };

/** Where something is. */
export type Resolved = {
  readonly at: LonLat;
  /** Standard error of the horizontal position in metres. */
  readonly standardError: number;
  /** True when nobody gave an accuracy for what it rests on, so that a guide value stands in for it. */
  readonly errorIsGuide?: true;
  /** How this position came about, in words, for a report. */
  readonly via: string;
};

/** Why something has no answer, as one plain sentence with its remedy. */
export type Unresolved = {
  readonly why: string;
  /** Both places that two distances lead to, when nobody said which. */
  readonly either?: readonly { readonly side: Side; readonly at: LonLat }[];
};

/** The axes of a block: where x = y = 0 lies and the true azimuth of the y axis, degrees. x points 90° clockwise of y. */
export type BlockAxes = {
  readonly origin: Resolved;
  readonly yAzimuthTrue: number;
  /** Standard error of that azimuth, degrees. */
  readonly azimuthDegrees: number;
};

/** True when there is no answer but a reason. */
export function isUnresolved(answer: object): answer is Unresolved {
  return 'why' in answer;
}
