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
  | { readonly how: 'local'; readonly block: string; readonly x: Quantity; readonly y: Quantity }
  | { readonly how: 'unknown' };

/** Where something is. */
export type Resolved = {
  readonly at: LonLat;
  /** Standard error of the horizontal position in metres; absent when it is not known. */
  readonly standardError?: number;
  /** How this position came about, in words, for a report. */
  readonly via: string;
};

/** Why something has no answer, as one plain sentence with its remedy. */
export type Unresolved = { readonly why: string };

/** The axes of a block: where x = y = 0 lies and the true azimuth of the y axis, degrees. x points 90° clockwise of y. */
export type BlockAxes = { readonly origin: LonLat; readonly yAzimuthTrue: number };

/** True when there is no answer but a reason. */
export function isUnresolved(answer: object): answer is Unresolved {
  return 'why' in answer;
}
