// What an audit of stumps brings up: felled stems that no stump was found for, and stumps that no felled stem explains.
import { instantOf } from './entry.ts';
import type { RaisedFinding } from './findings.ts';
import { membersOf } from './members.ts';
import { said } from './sentence.ts';
import type { Stand, Stem, Tallied } from './state.ts';

type Audited = Tallied<'stump-audited'>;

/**
 * Judged when everything is folded, because stumps are audited one after the other and stems may be felled before or
 * after. A group in which nobody audited a stump gives rise to nothing.
 */
export function auditFindings(stand: Stand): RaisedFinding[] {
  if (stand.stumpsAudited.length === 0) return [];
  const stemFor = stemOfStump(stand);
  const found = stand.stumpsAudited.map((stump) => ({ stump, stem: stemFor(stump) }));
  const stems = new Set(found.flatMap(({ stem }) => (stem === undefined ? [] : [stem.id])));
  return [
    ...found.flatMap(({ stump, stem }) => {
      if (stem === undefined) return [withoutStem(stump)];
      return stem.status === 'standing' || stem.status === 'dead' ? [ofStanding(stump, stem)] : [];
    }),
    ...[...lastAudits(found)].flatMap(([group, last]) =>
      membersOf(stand, stand.stems, group)
        .filter((stem) => !stems.has(stem.id) && wasFelledBefore(stem, last))
        .map((stem) => withoutStump(stem, group, last)),
    ),
  ];
}

type Found = Readonly<{ stump: Audited; stem: Stem | undefined }>;

/** The audited stump that came last in each group. */
function lastAudits(found: readonly Found[]): Map<string, Audited> {
  const last = new Map<string, Audited>();
  for (const { stump, stem } of found) {
    const group = stump.body.group ?? stem?.group;
    if (group !== undefined) last.set(group, stump);
  }
  return last;
}

function wasFelledBefore({ felling }: Stem, last: Audited): boolean {
  return felling !== undefined && instantOf(felling.at) <= instantOf(last.at);
}

/** Which stem an audited stump is of: the one that is named, or the one that carries or carried its tag. */
export function stemOfStump(stand: Stand): (stump: Audited) => Stem | undefined {
  const byTag = stemsByTag(stand);
  return ({ body }) => {
    if (body.stem !== undefined) return stand.stems.get(body.stem);
    return body.tag === undefined ? undefined : byTag(body.tag);
  };
}

/** The one stem that carries or carried a tag; of several the one that was felled, if only one was. */
function stemsByTag(stand: Stand): (tag: string) => Stem | undefined {
  const byTag = new Map<string, Stem[]>();
  for (const stem of stand.stems.values()) {
    for (const tag of new Set([...stem.earlierTags, ...(stem.tag === undefined ? [] : [stem.tag])])) {
      const key = tag.toLowerCase();
      const others = byTag.get(key);
      if (others) others.push(stem);
      else byTag.set(key, [stem]);
    }
  }
  return (tag) => {
    const stems = byTag.get(tag.trim().toLowerCase()) ?? [];
    const felled = stems.filter(({ felling }) => felling !== undefined);
    const [one, another] = felled.length > 0 ? felled : stems;
    return another === undefined ? one : undefined;
  };
}

function withoutStump(stem: Stem, group: string, last: Audited): RaisedFinding {
  return {
    ...raisedBy(last, stem.felling === undefined ? [] : [stem.felling.entry]),
    code: 'felled-without-stump',
    about: { stem: stem.id, group },
    says: said`${{ stem: stem.id }} is recorded as felled, and no stump was found for it when those of ${{ group }} were audited.`,
    remedy:
      'Look for it under the slash and record "stump audited". If there is none, amend or strike the felling, or write down why in a note about the stem.',
  };
}

function withoutStem(stump: Audited): RaisedFinding {
  const { tag, group } = stump.body;
  const what = tag === undefined ? 'A stump without a tag' : `A stump with the tag ${tag}`;
  return {
    ...raisedBy(stump, []),
    code: 'stump-without-stem',
    about: group === undefined ? {} : { group },
    says:
      group === undefined
        ? [`${what} was found, and no felled stem of the log explains it.`]
        : said`${what} was found in ${{ group }}, and no felled stem of the log explains it.`,
    remedy:
      'If it is the stump of a stem in the log, amend this entry and name the stem. If not, find out who cut it, record "stem felled" with "new" as the stem, and name that stem here.',
  };
}

function ofStanding(stump: Audited, stem: Stem): RaisedFinding {
  const group = stump.body.group ?? stem.group;
  return {
    ...raisedBy(stump, stem.entries.slice(0, 1)),
    code: 'stump-of-standing-stem',
    about: { stem: stem.id, ...(group === undefined ? {} : { group }) },
    says: said`A stump was found for ${{ stem: stem.id }}, which is not recorded as felled.`,
    remedy:
      'Record the felling with the day it happened, or amend this entry if the stump belongs to another stem.',
  };
}

function raisedBy(stump: Audited, earlier: readonly string[]) {
  return {
    entries: [...earlier.filter((entry) => entry !== stump.entry), stump.entry],
    at: stump.at.at,
    recordedAt: stump.recordedAt,
    instant: instantOf(stump.at),
  };
}
