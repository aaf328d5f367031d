// The state of the stand. Only the functions in apply/ write to it; everybody else gets it to read.
import type {
  AzimuthEntered,
  Body,
  EventType,
  HappenedEntered,
  QuantityEntered,
  SpeciesEntered,
} from '../events/index.ts';
import type { PositionEntered } from '../place/index.ts';
import type { RaisedFinding } from './findings.ts';

/** Things remember which entries they rest on, in order of happening. */
type Traced = { id: string; entries: string[] };

export type Person = Traced & { name: string; part?: string; contact?: string; erased: boolean };

/** A device that was paired or revoked; the id is the one that it writes into its entries. */
export type Device = Traced & {
  label: string;
  /** As recorded: 32 bytes in base64. */
  publicKey?: string;
  keyId?: string;
  /** Who carries it; undefined while it was only revoked. */
  person?: string;
  /** The entry that revoked it; absent while it may record. */
  revokedBy?: string;
  /** Pairings and revocations in the order that they happened. */
  turns: DeviceTurn[];
};
export type DeviceTurn = Readonly<{
  to: 'paired' | 'revoked';
  entry: string;
  /** When the logbook had it, or where it has not, when it was recorded; milliseconds since 1970. */
  since: number;
  position: number | undefined;
}>;

export type Block = Traced & {
  introduced: boolean;
  name: string;
  boundary?: PositionEntered[];
  /** RFC 3339, for the declination of corners given by azimuth. */
  boundaryWhen?: string;
  boundaryFrom?: string;
  area?: QuantityEntered;
  axes?: { origin: PositionEntered; azimuth: AzimuthEntered; when: string };
  prescription?: { entry: string; body: Body<'prescription-set'> };
  tallyScope?: { entry: string; body: Body<'tally-scope-set'> };
};

/** Something on the ground: a stream, a road, a neighbour's land. */
export type Feature = Traced & {
  introduced: boolean;
  label: string;
  at: HappenedEntered | undefined;
  body: Body<'feature-mapped'> | undefined;
};

export type Stake = Traced & { label: string; what?: string; position?: Located };

/** A position as entered, with the time that a declination is taken at. */
export type Located = { entered: PositionEntered; when: string; entry: string };

export type StemStatus = 'standing' | 'felled' | 'hung-up' | 'found-down' | 'dead';

export type Felling = {
  entry: string;
  at: HappenedEntered;
  /** As it fell, before anything hung up was cleared. */
  came: 'down' | 'hung-up';
  hungOn: string | undefined;
  lay: AzimuthEntered | undefined;
  layLength: QuantityEntered | undefined;
  details: Body<'stem-felled'>;
  /** The entry by which a hung-up stem came down. */
  clearedBy: string | undefined;
};

/** Rot in a stem that stands: sound wood round the heart, and a pocket or opening to one side. */
export type StandingRot = Readonly<{
  shell: QuantityEntered | undefined;
  pocket: AzimuthEntered | undefined;
  pocketDepth: QuantityEntered | undefined;
  pocketAround: QuantityEntered | undefined;
}>;

export type Decay = { entry: string; body: Body<'decay-measured'> };

/** What is kept as it was counted or listed, for figures; the entry is its identity. */
export type Tallied<T extends EventType> = Readonly<{
  entry: string;
  at: HappenedEntered;
  recordedAt: string;
  body: Body<T>;
  position: Located | undefined;
}>;

/**
 * There are more stems than anything else: every one has all its members from the start, so that they share
 * one layout in memory and none of them is moved when it learns something.
 */
export type Stem = Traced & {
  /** False while only entries about it are known, and none that brings it in. */
  introduced: boolean;
  tag: string | undefined;
  /** The entry that the tag comes from. */
  taggedBy: string | undefined;
  tagLost: boolean;
  earlierTags: readonly string[];
  species: SpeciesEntered | undefined;
  mark: 'cut' | 'leave' | undefined;
  /** The entry that the mark comes from. */
  markedBy: string | undefined;
  purpose: string | undefined;
  reason: string | undefined;
  group: string | undefined;
  block: string | undefined;
  dbh: QuantityEntered | undefined;
  /** The DBH before it was measured again. */
  earlierDbh: QuantityEntered | undefined;
  height: QuantityEntered | undefined;
  merchantableHeight: QuantityEntered | undefined;
  crownBase: QuantityEntered | undefined;
  crownRadius: QuantityEntered | undefined;
  lean: { offset: QuantityEntered; azimuth: AzimuthEntered } | undefined;
  decaySigns: readonly string[];
  seams: readonly AzimuthEntered[];
  /** What sounding or boring the standing stem showed at the height of the cut. */
  rot: StandingRot | undefined;
  defects: string | undefined;
  vigor: string | undefined;
  product: string | undefined;
  grade: string | undefined;
  markAtEye: boolean | undefined;
  markOnStump: boolean | undefined;
  position: Located | undefined;
  status: StemStatus;
  /** The entry that the status comes from; undefined while nothing but standing is known. */
  statusBy: string | undefined;
  felling: Felling | undefined;
  decay: Decay | undefined;
  /** Its stump as it was audited last. */
  stump: Tallied<'stump-audited'> | undefined;
};

export type SaplingCondition = Body<'sapling-checked'>['condition'];
export type SaplingCheck = { entry: string; at: HappenedEntered; condition: SaplingCondition; by?: string };

export type Sapling = Traced & {
  introduced: boolean;
  label?: string;
  species?: SpeciesEntered;
  height?: QuantityEntered;
  diameter?: QuantityEntered;
  group?: string;
  beside?: string;
  position?: Located;
  checks: SaplingCheck[];
};

export type Patch = Omit<Sapling, 'height' | 'diameter' | 'beside'> & {
  edge?: PositionEntered[];
  edgeWhen?: string;
  area?: QuantityEntered;
};

export type OpeningState = 'not cut yet' | 'open' | 'closed';

export type Group = Traced & {
  introduced: boolean;
  label: string;
  block?: string;
  reason?: string;
  center?: Located;
  plannedEdge?: PositionEntered[];
  plannedArea?: QuantityEntered;
  widened: { entry: string; reason: string }[];
  opening: OpeningState;
  closings: { entry: string; at: HappenedEntered; body: Body<'opening-closed'> }[];
  /** Its size as measured, in order of happening. */
  measured: Tallied<'opening-measured'>[];
  reopenings: { entry: string; instant: number }[];
  /** The felling plan that was adopted last. */
  plan?: Tallied<'felling-plan-adopted'>;
  /** Those before it, in order of happening. */
  earlierPlans?: readonly Tallied<'felling-plan-adopted'>[];
};

export type Hazard = Traced & {
  introduced: boolean;
  what: string;
  stem?: string;
  group?: string;
  radius?: QuantityEntered;
  position?: Located;
  note?: string;
  notedAt: HappenedEntered;
  clearedBy?: string;
};

export type Damage = Traced & { body: Body<'damage-noted'>; at: HappenedEntered; position?: Located };

/** What is known for the worst day. Later cards say more, they don't unsay. */
export type EmergencyCard = {
  /** The entries that it rests on, in order of happening. */
  entries: string[];
  accessPoint?: Located;
  wayIn?: string;
  callFirst?: string;
  nearestHelp?: string;
  signal?: string;
  /** The hash of the names and numbers; they themselves are kept apart. */
  contacts?: string;
  contactsErased: boolean;
};

/** A call that somebody expects from a person who is out. */
export type ExpectedCall = {
  entry: string;
  /** Whose call it is. */
  person: string;
  due: HappenedEntered;
  /** The hash of who expects it. */
  expectedBy?: string;
  erased: boolean;
  /** How it was recorded as made; absent while it is open. */
  made?: { entry: string; at: HappenedEntered; instant: number };
  /** The later expectation that took its place before it was due. */
  movedBy?: string;
};

export type Stand = {
  logbook?: { entry: string; body: Body<'logbook-opened'> };
  people: Map<string, Person>;
  devices: Map<string, Device>;
  blocks: Map<string, Block>;
  stakes: Map<string, Stake>;
  /** How lines are known, what lies on the ground, and what neighbours agreed to. */
  evidence: Tallied<'boundary-evidence-noted'>[];
  features: Map<string, Feature>;
  consents: Tallied<'neighbour-consent-noted'>[];
  groups: Map<string, Group>;
  stems: Map<string, Stem>;
  saplings: Map<string, Sapling>;
  patches: Map<string, Patch>;
  hazards: Map<string, Hazard>;
  damages: Map<string, Damage>;
  /** The property's emergency card, those of single blocks by the block's id, and calls in order of happening. */
  emergency: { card?: EmergencyCard; blocks: Map<string, EmergencyCard>; calls: ExpectedCall[] };
  /** Audited stumps, tallied plots, counted regeneration plots and price lists, each in order of happening. */
  stumpsAudited: Tallied<'stump-audited'>[];
  plots: Tallied<'plot-tallied'>[];
  regeneration: Tallied<'regeneration-counted'>[];
  prices: Tallied<'prices-set'>[];
  /** What somebody's felling plans are computed with, by person and name of the number. */
  fellingDefaults: Map<string, Tallied<'felling-default-set'>>;
  winds: Tallied<'wind-noted'>[];
  notes: { entry: string; at: HappenedEntered; recordedAt: string; body: Body<'note-written'> }[];
  photos: { entry: string; at: HappenedEntered; body: Body<'photo-taken'>; erased: boolean }[];
  reports: { entry: string; at: HappenedEntered; body: Body<'report-issued'> }[];
  findings: RaisedFinding[];
  /** Which stems carry a tag (lower case) now. */
  tags: Map<string, string[]>;
  /** Ids of the things in each group; see members.ts. */
  members: Map<string, Set<string>>;
  /** Ids of the hazards that nobody has cleared. */
  openHazards: Set<string>;
  /** Ids of the stems that are hung up now. */
  hungUp: Set<string>;
  /** Which groups, blocks and stakes carry a label now; keys are a noun and a label in lower case. */
  labels: Map<string, Set<string>>;
  /** The label (lower case) that such a thing carries now, by its id, and the entry that gave it. */
  labelled: Map<string, { label: string; by: string }>;
};

export function emptyStand(): Stand {
  return {
    people: new Map(),
    devices: new Map(),
    blocks: new Map(),
    stakes: new Map(),
    evidence: [],
    features: new Map(),
    consents: [],
    groups: new Map(),
    stems: new Map(),
    saplings: new Map(),
    patches: new Map(),
    hazards: new Map(),
    damages: new Map(),
    emergency: { blocks: new Map(), calls: [] },
    stumpsAudited: [],
    plots: [],
    regeneration: [],
    prices: [],
    fellingDefaults: new Map(),
    winds: [],
    notes: [],
    photos: [],
    reports: [],
    findings: [],
    tags: new Map(),
    members: new Map(),
    openHazards: new Set(),
    hungUp: new Set(),
    labels: new Map(),
    labelled: new Map(),
  };
}
