// After the last entry: findings that later entries settled, and things that nobody has brought in.
import { compareFindings, type Finding, isAboutRecord } from './findings.ts';
import { words } from './labels.ts';
import type { Stand, Stem } from './state.ts';

/** The finding with what settled it, judged by the stand as it is now. The fold's own findings stay as they are. */
export function settle(stand: Stand, finding: Finding): Finding {
  const settled = settledBy(stand, finding);
  return settled === undefined ? finding : { ...finding, settled };
}

function settledBy(stand: Stand, finding: Finding): string | undefined {
  const { stem: stemId, sapling, patch, hazard } = finding.about;
  const stem = stemId === undefined ? undefined : stand.stems.get(stemId);
  switch (finding.code) {
    case 'marked-but-standing':
      return stem?.status === 'standing' || stem?.status === 'dead' ? leftBy(stem) : stem?.statusBy;
    case 'hung-up-stem-left':
      return stem?.status === 'hung-up' ? undefined : stem?.statusBy;
    case 'hazard-open-at-closing':
      return hazard === undefined ? undefined : stand.hazards.get(hazard)?.clearedBy;
    case 'sapling-not-checked': {
      const found = sapling === undefined ? stand.patches.get(patch ?? '') : stand.saplings.get(sapling);
      return found?.checks[0]?.entry;
    }
    default:
      return undefined;
  }
}

function leftBy(stem: Stem): string | undefined {
  return stem.mark === 'leave' ? stem.markedBy : undefined;
}

/** Entries about things that no entry brings in: perhaps another device has not sent its entries yet. */
export function missingThings(stand: Stand): Finding[] {
  const missing: Finding[] = [];
  const look = (noun: string, things: Iterable<{ id: string; entries: string[]; introduced: boolean }>) => {
    for (const thing of things) if (!thing.introduced) missing.push(missingThing(noun, thing.entries));
  };
  look(
    'stem',
    [...stand.stems.values()].filter((stem) => stem.felling === undefined),
  );
  look('block', stand.blocks.values());
  look('group', stand.groups.values());
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

/** All findings in their fixed order. */
export function arrange(findings: Iterable<Finding>): Finding[] {
  return [...findings].sort(compareFindings);
}

/** Findings about the woods that nothing has settled yet. */
export function openFindings(findings: readonly Finding[]): Finding[] {
  return findings.filter((finding) => !isAboutRecord(finding) && finding.settled === undefined);
}
