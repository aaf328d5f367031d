// Findings: things in the log that an auditor would ask about. Each names the entries behind it, says
// what is the matter and what to do. Nothing is refused because of a finding.

export const findingCodes = [
  'felled-without-mark',
  'leave-tree-felled',
  'felled-twice',
  'holding-tree-felled',
  'contradiction',
  'measures-contradict',
  'line-tree-felled-without-consent',
  'doubtful-line-tree',
  'offsets-in-a-circle',
  'marked-but-standing',
  'sapling-harmed',
  'sapling-not-checked',
  'hazard-open-at-closing',
  'hung-up-stem-left',
  'cut-in-closed-opening',
  'tag-used-twice',
  'label-used-twice',
  'felled-without-stump',
  'stump-without-stem',
  'stump-of-standing-stem',
  'call-not-made',
  'late-entry',
  'amended-entry',
  'struck-entry',
  'two-corrections',
  'missing-target',
  'clock-ran-backwards',
  'date-in-future',
  'entry-of-revoked-device',
] as const;
export type FindingCode = (typeof findingCodes)[number];

/** What the finding is about; ids of things in the stand. */
export type About = Readonly<{
  stem?: string;
  sapling?: string;
  patch?: string;
  group?: string;
  hazard?: string;
  device?: string;
}>;

export type Finding = Readonly<{
  code: FindingCode;
  /** Ids of the entries behind it. */
  entries: readonly string[];
  about: About;
  sentence: string;
  remedy: string;
  /** When the last of its entries happened, RFC 3339. */
  at: string;
  /** The entry that settled it afterwards; absent while it is open. */
  settled?: string;
}>;

/** A part of a sentence: words, or a thing by its id. */
export type Part =
  | string
  | Readonly<{ stem: string }>
  | Readonly<{ sapling: string }>
  | Readonly<{ patch: string }>
  | Readonly<{ group: string }>
  | Readonly<{ hazard: string }>;

/** Two things that carried one label: their ids and the label in lower case. */
export type Twice = Readonly<{ one: string; other: string; label: string }>;

/** A finding as an apply function raises it, before it has its words and what settled it. */
export type RaisedFinding = Omit<Finding, 'sentence' | 'settled'> &
  Readonly<{
    says: readonly Part[];
    /** When the last of its entries was recorded, RFC 3339; notes recorded later can settle it. */
    recordedAt: string;
    /** When it happened, in milliseconds since 1970, as the order of happening has it. */
    instant: number;
    twice?: Twice;
  }>;

/** Findings about how the log was kept; the others are about the woods. */
const aboutRecord: ReadonlySet<FindingCode> = new Set([
  'late-entry',
  'amended-entry',
  'struck-entry',
  'two-corrections',
  'missing-target',
  'clock-ran-backwards',
  'date-in-future',
  'entry-of-revoked-device',
]);

export function isAboutRecord(finding: Finding): boolean {
  return aboutRecord.has(finding.code);
}

const order = new Map(findingCodes.map((code, index) => [code, index]));

/** All findings in a fixed order: by time, then code, then the entries. */
export function arrange(findings: Iterable<Finding>): Finding[] {
  const keyed = [...findings].map((finding) => ({ finding, instant: Date.parse(finding.at) }));
  keyed.sort((a, b) => a.instant - b.instant || compareOfOneTime(a.finding, b.finding));
  return keyed.map(({ finding }) => finding);
}

function compareOfOneTime(a: Finding, b: Finding): number {
  return (
    (order.get(a.code) ?? 0) - (order.get(b.code) ?? 0) || (a.entries.join() < b.entries.join() ? -1 : 1)
  );
}
