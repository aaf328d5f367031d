// After the last entry: findings that later entries settled, and things that nobody has brought in.
import { auditFindings } from './audit-findings.ts';
import { compareText, type LogEntry } from './entry.ts';
import { type Finding, isAboutRecord, type RaisedFinding, type Twice } from './findings.ts';
import { words } from './labels.ts';
import { lineFindings } from './line-findings.ts';
import { physicsFindings } from './physics-findings.ts';
import { sentenceOf } from './sentence.ts';
import type { Group, Stand, Stem } from './state.ts';

/**
 * The findings of the fold in words, with the labels that things carry now, and with what settled them,
 * judged by the stand as it is now.
 */
export function settleAll(stand: Stand, entries: ReadonlyMap<string, LogEntry>): Finding[] {
  const notes = notesByThing(stand);
  return [
    ...stand.findings,
    ...auditFindings(stand),
    ...physicsFindings(stand, entries),
    ...lineFindings(stand, entries),
  ].map((raised) => {
    const { says, recordedAt: _recordedAt, instant: _instant, twice: _twice, ...finding } = raised;
    const sentence = withLaterMark(stand, raised, sentenceOf(stand, says));
    const settled = settledBy(stand, raised, notes);
    return { ...finding, sentence, ...(settled === undefined ? {} : { settled }) };
  });
}

/** A mark that is in the log now, but dated after the felling, is told: perhaps one of the times is wrong. */
function withLaterMark(stand: Stand, { code, about }: RaisedFinding, sentence: string): string {
  const mark = about.stem === undefined ? undefined : stand.stems.get(about.stem)?.mark;
  if (code === 'felled-without-mark' && mark !== undefined)
    return sentence.replace(/\.$/, '; its mark is dated later.');
  if (code === 'leave-tree-felled' && mark === 'cut')
    return sentence.replace(/\.$/, '; the change of its mark is dated later.');
  return sentence;
}

type Notes = ReadonlyMap<string, Stand['notes']>;

function notesByThing(stand: Stand): Notes {
  const found = new Map<string, Stand['notes']>();
  for (const note of stand.notes) {
    for (const id of [note.body.stem, note.body.sapling, note.body.patch]) {
      if (id === undefined) continue;
      const others = found.get(id);
      if (others) others.push(note);
      else found.set(id, [note]);
    }
  }
  return found;
}

function settledBy(stand: Stand, finding: RaisedFinding, notes: Notes): string | undefined {
  const { stem: stemId, sapling, patch, hazard, group } = finding.about;
  const stem = stemId === undefined ? undefined : stand.stems.get(stemId);
  switch (finding.code) {
    case 'marked-but-standing':
      return stem?.status === 'standing' || stem?.status === 'dead' ? leftBy(stem) : stem?.statusBy;
    case 'hung-up-stem-left':
    case 'holding-tree-felled':
      return stem?.status === 'hung-up' ? undefined : stem?.statusBy;
    case 'hazard-open-at-closing':
      return hazard === undefined ? undefined : stand.hazards.get(hazard)?.clearedBy;
    case 'sapling-not-checked': {
      const found = sapling === undefined ? stand.patches.get(patch ?? '') : stand.saplings.get(sapling);
      return found?.checks[0]?.entry;
    }
    case 'tag-used-twice':
    case 'label-used-twice':
      return toldApartBy(stand, finding.twice);
    case 'cut-in-closed-opening':
      return reopenedBy(group === undefined ? undefined : stand.groups.get(group), finding);
    case 'leave-tree-felled':
    case 'felled-without-mark':
    case 'felled-twice':
    case 'contradiction':
    case 'measures-contradict':
    case 'line-tree-felled-without-consent':
    case 'doubtful-line-tree':
    case 'sapling-harmed':
    case 'felled-without-stump':
    case 'stump-of-standing-stem':
      return explainedBy(notes.get(stemId ?? sapling ?? patch ?? '') ?? [], finding);
    default:
      return undefined;
  }
}

function leftBy(stem: Stem): string | undefined {
  return stem.mark === 'leave' ? stem.markedBy : undefined;
}

/** The entry that gave one of the two another label. */
function toldApartBy(stand: Stand, twice: Twice | undefined): string | undefined {
  if (twice === undefined) return undefined;
  const now = [twice.one, twice.other].map((id) => carriedBy(stand, id));
  return now.find((carried) => carried !== undefined && carried.label !== twice.label)?.by;
}

/** The tag or label (lower case) that a thing carries, and the entry that gave it. */
function carriedBy(stand: Stand, id: string): { label: string; by: string } | undefined {
  const { tag, taggedBy } = stand.stems.get(id) ?? {};
  return tag === undefined || taggedBy === undefined
    ? stand.labelled.get(id)
    : { label: tag.toLowerCase(), by: taggedBy };
}

/** An opening that was reopened after the cut, or later on the same day. */
function reopenedBy(group: Group | undefined, { instant }: RaisedFinding): string | undefined {
  return group?.reopenings.find((reopening) => reopening.instant >= instant)?.entry;
}

/** The first note about the thing that was recorded after the finding: somebody wrote down why. */
function explainedBy(notes: Stand['notes'], { recordedAt, entries }: RaisedFinding): string | undefined {
  const last = entries.at(-1) ?? '';
  const after = Date.parse(recordedAt);
  return notes.find((note) => {
    const later = Date.parse(note.recordedAt) - after;
    return later > 0 || (later === 0 && compareText(note.entry, last) > 0);
  })?.entry;
}

/** Entries about things that no entry brings in: perhaps another device has not sent its entries yet. */
export function missingThings(stand: Stand): Finding[] {
  const missing: Finding[] = [];
  const look = (noun: string, things: Iterable<{ id: string; entries: string[]; introduced: boolean }>) => {
    for (const thing of things) if (!thing.introduced) missing.push(missingThing(noun, thing.entries));
  };
  for (const stem of stand.stems.values())
    if (!stem.introduced && stem.felling === undefined) missing.push(missingThing('stem', stem.entries));
  look('block', stand.blocks.values());
  look('group', stand.groups.values());
  look('feature', stand.features.values());
  look('sapling', stand.saplings.values());
  look('patch', stand.patches.values());
  look('hazard', stand.hazards.values());
  return missing;
}

function missingThing(noun: string, entries: readonly string[]): Finding {
  return {
    code: 'missing-target',
    entries: [...entries],
    about: {},
    sentence: `${entries.length === 1 ? 'An entry is' : `${entries.length} entries are`} about a ${words(noun)} that this log does not hold.`,
    remedy:
      "Send the other device's entries; if there are none, strike this one and record it for the right one.",
    at: '1970-01-01T00:00:00Z',
  };
}

/** Findings about the woods that nothing has settled yet. */
export function openFindings(findings: readonly Finding[]): Finding[] {
  return findings.filter((finding) => !isAboutRecord(finding) && finding.settled === undefined);
}
