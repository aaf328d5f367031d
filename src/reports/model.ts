// The harvest report as data: what renderHtml prints and what stands in the JSON. Plain JSON throughout, so
// that it can be written canonically and hashed. Unknown is said in words, never left out.
import type { Cautions } from '../felling/index.ts';
import type { Chart } from './charts/model.ts';
import type { Sheet } from './sheets/model.ts';

/** An entry's number in the log; the id of one that has no number yet. */
export type EntryNumber = number | string;

/** Something said, and the entries it rests on. `known: false` means that the text says what is missing. */
export type Fact = Readonly<{ text: string; known: boolean; entries: readonly EntryNumber[] }>;
export type Term = Readonly<{ term: string; fact: Fact }>;

export type HarvestReport = Readonly<{
  report: 'harvest';
  format: 1;
  title: string;
  /** RFC 3339, as passed in. */
  madeAt: string;
  /** The same in the zone of the logbook, to the minute. */
  madeLocal: string;
  program: string;
  evidence: Evidence;
  /** Which moment and which knowledge the report shows, in sentences. */
  moment: Readonly<{ at?: string; knownAt?: string; sentences: readonly string[] }>;
  logbook: readonly Term[];
  cautions: Cautions;
  blocks: readonly BlockPart[];
  groups: readonly GroupPart[];
  figures: readonly FigurePart[];
  record: RecordPart;
}>;

/** Figures as they are printed, and the same unrounded, each with unit, method, source and entries. */
export type FigurePart = Readonly<{ sheet: Sheet; chart?: Chart; data: unknown }>;

export type Evidence = Readonly<{
  size: number;
  root: string;
  /** The root in groups of four hex digits, to be read aloud. */
  rootInFours: string;
  check: string;
  command: string;
}>;

export type BlockPart = Readonly<{
  id: string;
  name: string;
  facts: readonly Term[];
  prescription: Readonly<{ inForce: Fact; facts: readonly Term[] }>;
  scope: Fact;
}>;

export type GroupPart = Readonly<{
  /** Absent for what belongs to no group. */
  id?: string;
  label: string;
  block: Fact;
  facts: readonly Term[];
  opening: readonly Term[];
  /** What must be known before anybody goes there; empty when nothing open is recorded. */
  warnings: readonly Fact[];
  tally: readonly TallyRow[];
  stems: readonly StemRow[];
  decay: readonly Fact[];
  /** The plans that were adopted, and what became of them; empty without one. The same as data beside it. */
  plan: readonly Fact[];
  plansCompared: readonly unknown[];
  kept: KeptPart;
  hazards: readonly HazardRow[];
  damage: Readonly<{ summary: Fact; rows: readonly DamageRow[] }>;
  findings: readonly FindingRow[];
  notes: readonly Fact[];
}>;

export type TallyRow = Readonly<{
  what: string;
  count: number;
  which: readonly string[];
  entries: readonly EntryNumber[];
}>;

export type StemRow = Readonly<{
  id: string;
  label: string;
  species: Fact;
  dbh: Fact;
  mark: Fact;
  happened: Fact;
  lay: Fact;
  decay: Fact;
  entries: readonly EntryNumber[];
}>;

export type KeptPart = Readonly<{ summary: readonly TallyRow[]; rows: readonly KeptRow[] }>;
export type KeptRow = Readonly<{
  id: string;
  is: 'sapling' | 'patch';
  label: string;
  species: Fact;
  size: Fact;
  /** Every check in the order they were made; one that says "not checked" when there was none. */
  checks: readonly Fact[];
  entries: readonly EntryNumber[];
}>;

export type HazardRow = Readonly<{
  id: string;
  state: 'open' | 'cleared';
  what: string;
  where: string;
  keepAway: Fact;
  noted: Fact;
  cleared: Fact;
  entries: readonly EntryNumber[];
}>;

export type DamageRow = Readonly<{
  id: string;
  to: string;
  part: Fact;
  woundArea: Fact;
  woundHeight: Fact;
  by: Fact;
  what: Fact;
  noted: string;
  entries: readonly EntryNumber[];
}>;

export type FindingRow = Readonly<{
  code: string;
  sentence: string;
  remedy: string;
  state: 'open' | 'settled';
  /** The entry that settled it, if it is one. */
  settledBy?: EntryNumber;
  entries: readonly EntryNumber[];
}>;

/** Findings of one code about how the log was kept; `first` holds the first few. */
export type FindingCount = Readonly<{
  code: string;
  title: string;
  remedy: string;
  count: number;
  first: readonly Fact[];
}>;

export type RecordPart = Readonly<{
  /** Findings about the woods that belong to none of the groups shown. */
  elsewhere: readonly FindingRow[];
  findings: readonly FindingCount[];
  corrections: readonly CorrectionRow[];
  late: readonly LateRow[];
  people: readonly PersonRow[];
  /** Notes and photos that are about none of the groups. */
  notes: readonly Fact[];
  /** Reports that left the house before. */
  issued: readonly Fact[];
  /** What this program cannot read, said in a sentence; empty when it can read everything. */
  unreadable: readonly Fact[];
}>;

export type CorrectionRow = Readonly<{
  kind: 'amended' | 'struck';
  /** The version that was corrected, and the correction itself: both stay in the log. */
  corrects: EntryNumber;
  correction: EntryNumber;
  before: string;
  after: string;
  changes: readonly string[];
  reason: string;
  who: string;
  when: string;
  holds: string;
}>;

export type LateRow = Readonly<{
  entry: EntryNumber;
  what: string;
  happened: string;
  recorded: string;
  who: string;
}>;

export type PersonRow = Readonly<{
  name: Fact;
  part: Fact;
  recorded: number;
}>;
