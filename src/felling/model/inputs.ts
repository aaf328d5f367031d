// What the felling model has to know about a group. Plain numbers in one local plane: metres, x east and y north;
// directions in degrees clockwise from true north; shares 0 to 1. What nobody measured is left out, never made up here.

/** A place in the local plane of the group, metres east and north of any one point. */
export type Point = Readonly<{ x: number; y: number }>;

/** The crown's horizontal offset from the stump. Errors are standard deviations; left out, an assumption fills them. */
export type Lean = Readonly<{
  /** Metres. */
  amount: number;
  azimuth: number;
  /** Only true north is computed with: a compass reading is turned before it comes here. */
  reference: 'true';
  amountError?: number;
}>;

/** Rot as it was found or suspected in the section of the cut. Lengths in metres. */
export type StemDecay = Readonly<{
  /** Sound wood around a rotten or hollow core, at its thinnest. */
  shell?: number;
  /** A pocket or an opening to one side, from the middle outwards at this azimuth. */
  pocketAzimuth?: number;
  /** How far the pocket reaches in from the bark. */
  pocketDepth?: number;
  /** How far round the pocket goes, degrees. */
  pocketWidth?: number;
}>;

/** One stem of the group, standing and marked to be cut. */
export type GroupStem = Point &
  Readonly<{
    id: string;
    /** What people call it: the tag. */
    label: string;
    /** Standard error of its place, metres. */
    positionError?: number;
    /** Diameter at breast height, metres. */
    dbh?: number;
    /** Diameter at the height of the cut, metres; the DBH stands in for it. */
    stumpDiameter?: number;
    /** Total height, metres. */
    height?: number;
    /** Whether the height was estimated by eye or taken from a curve, and not measured. */
    heightEstimated?: boolean;
    /** Height of the lowest part of the crown, metres. */
    crownBase?: number;
    /** Metres, from the middle of the bole. */
    crownRadius?: number;
    lean?: Lean;
    decay?: StemDecay;
    /** Decay that is known of, without measures: it widens the error and narrows the aims like a measured one. */
    decayed?: boolean;
    deadTop?: boolean;
    dead?: boolean;
    /** Open seams or cracks in the bole, by the azimuths at which they face outwards; true when only their being there is known. */
    seam?: number | readonly number[] | true;
    fork?: boolean;
    /** Goes before everything else, because something could strike it or bring it down. */
    hazardFirst?: boolean;
    /** Stays till the end to take the brunt of the others. */
    bumper?: boolean;
    /** What is noted above it, in words: a hanging limb, a dead top. */
    above?: readonly string[];
    /** Why nothing may be planned for it: no consent at a line, hung up, holds a hung-up stem. A whole sentence. */
    withheld?: string;
  }>;

/** A sapling protected by itself. */
export type Sapling = Point &
  Readonly<{
    id: string;
    label: string;
    /** Radius of what must not be touched, metres; 0 or left out: a point. */
    radius?: number;
    /** What it counts against other saplings; 1 unless somebody said otherwise. */
    value?: number;
    /** Standard error of its place, metres. */
    positionError?: number;
  }>;

/** Regeneration that is protected by its area; not closed by repeating the first corner. */
export type Patch = Readonly<{
  id: string;
  label: string;
  ring: readonly Point[];
  /** What the whole patch counts against a sapling. */
  value: number;
}>;

/** A stem that stays: an obstacle for every fall, and harmed by being struck. */
export type LeaveTree = Point &
  Readonly<{
    id: string;
    label: string;
    dbh?: number;
    crownRadius?: number;
    /** What it counts in saplings' worth, where it differs from the assumption. */
    value?: number;
    /** Standard error of its place, metres. */
    positionError?: number;
  }>;

/** What lies near the group and should not be reached. */
export const LINE_KINDS = ['structure', 'road', 'trail', 'power line', 'water', 'property line'] as const;

/** A line on the ground, or the outline of an area (first corner repeated at the end). */
export type Line = Readonly<{
  id: string;
  label: string;
  kind: (typeof LINE_KINDS)[number];
  points: readonly Point[];
}>;

/** Where somebody works or stays. Nothing is felled while it is occupied within the stated tree lengths. */
export type WorkPlace = Point & Readonly<{ id: string; label: string }>;

/** A hung-up or dead stem, or another danger tree, that is not one of the group's stems to be planned. */
export type Hazard = Point &
  Readonly<{
    id: string;
    label: string;
    kind: 'hung-up' | 'holds a hung-up stem' | 'dead' | 'other';
    /** Metres; how far it can reach when it comes down. */
    height?: number;
    /** Metres. */
    dbh?: number;
  }>;

/** Something on the ground or standing that a person can aim at by eye, besides what is named above. */
export type Landmark = Point & Readonly<{ id: string; label: string; kind: 'stump' | 'stake' }>;

/** A stem that lies on the ground, from its butt to its tip, or a stump: what another stem can come down on and break. */
export type OnTheGround = Point &
  Readonly<{
    id: string;
    label: string;
    /** The tip of a stem that lies; left out, it is a stump. */
    tip?: Point;
    /** Metres; left out, an assumption fills it. */
    dbh?: number;
  }>;

/** How the ground falls: percent, and the azimuth of straight down the slope. */
export type GroundSlope = Readonly<{ percent: number; aspect: number }>;

/** What a person has at hand beyond saw and hammer. */
export type Tools = Readonly<{ wedges?: boolean; winch?: boolean }>;

/** One group as it stands now, with what is around it. */
export type GroupInputs = Readonly<{
  id: string;
  label: string;
  /** A group that is closed is not planned. */
  closed?: boolean;
  stems: readonly GroupStem[];
  saplings?: readonly Sapling[];
  patches?: readonly Patch[];
  leaveTrees?: readonly LeaveTree[];
  lines?: readonly Line[];
  workPlaces?: readonly WorkPlace[];
  hazards?: readonly Hazard[];
  landmarks?: readonly Landmark[];
  /** What lay there before the first fall. */
  onTheGround?: readonly OnTheGround[];
  slope?: GroundSlope;
  /** Mean wind, metres a second; left out: calm is assumed, and said. */
  wind?: number;
  tools?: Tools;
  /** Pairs [a, b] of ids: a has to be down before b. */
  before?: readonly (readonly [string, string])[];
}>;
