// Labels are no identities: the same may be written on two things. It is asked about, whatever the case of the
// letters, for afterwards the label alone no longer says which of the two is meant.
import type { Event } from '../events/index.ts';
import {
  type Folded,
  groupLabel,
  type Names,
  type Stand,
  type Stem,
  toldApart,
  words,
} from '../stand/index.ts';
import { isDown } from './falls.ts';
import type { Question } from './question.ts';

type Tagged = Readonly<{ tag?: string | undefined; stem: string }>;

/**
 * Asks about a tag that another stem carries.
 * @param amending whether the stem is there already, so that it cannot turn out to be the other one
 */
export function tagInUse(event: Event, folded: Folded, amending: boolean): Question[] {
  const { stand } = folded;
  const { tag, stem: id } = event.body as Partial<Tagged>;
  const stem = stand.stems.get(id ?? '');
  // A stem that has a tag keeps it, whatever is said where it is felled or found.
  const given = event.type === 'stem-marked' || event.type === 'tag-replaced' || stem?.tag === undefined;
  if (tag === undefined || id === undefined || !given || stem?.tag === tag) return [];
  const carriers = [...(stand.tags.get(tag.toLowerCase()) ?? [])].flatMap((carrier) =>
    carrier === id ? [] : (stand.stems.get(carrier) ?? []),
  );
  const [other] = carriers;
  if (other === undefined) return [];
  const group = other.group === undefined ? '' : ` of ${groupLabel(stand.groups.get(other.group))}`;
  const on = carriers.length > 1 ? `${carriers.length} stems` : `a ${words(other.status)} stem${group}`;
  const same = event.type === 'stem-marked' && !amending ? sameStem(carriers, folded) : [];
  const both =
    carriers.length > 1 ? 'one more stem carries this tag: keep all' : 'two stems carry this tag: keep both';
  return [
    {
      code: 'tag-in-use',
      sentence: `Tag ${tag} is on ${on} already.`,
      choices: [...same, { answer: 'keep-both', label: both }],
    },
  ];
}

/**
 * A mark may turn out to be for a stem that carries the tag already. Where there are several, and where the stem
 * does not stand any more, the answer names it: a bare "same-stem" given in advance would choose unseen.
 */
function sameStem(carriers: readonly Stem[], folded: Folded): Question['choices'] {
  const [only] = carriers;
  if (only && carriers.length === 1 && !isDown(only))
    return [{ answer: 'same-stem', label: 'it is that stem: record the mark and measures for it' }];
  return carriers.map(({ id, status }) => ({
    answer: `same-stem:${id}`,
    label: `it is ${toldApart('stem', id, folded)}, ${words(status)}: record the mark and measures for it`,
  }));
}

type Labelled = Readonly<{ id: string; label?: string | undefined; entries: readonly string[] }>;
type Naming = Readonly<{
  noun: string;
  /** The thing that the entry brings in, as it is labelled there. */
  named: Readonly<{ id: string; label: string | undefined }>;
  others: readonly Labelled[];
  /** What may be meant instead of a second one, where it is not to amend the entry that brought in the first. */
  instead?: (entry: number) => string;
}>;

/** Asks about the label of a stake, group, block, sapling, patch or person that another one has. */
export function labelInUse(event: Event, { stand, entries }: Folded, names: Names = new Map()): Question[] {
  const naming = namingOf(event, stand, names);
  const wanted = naming?.named.label?.trim().toLowerCase();
  if (naming === undefined || wanted === undefined) return [];
  const { noun, named, others } = naming;
  const alike = others.filter(({ label }) => label?.trim().toLowerCase() === wanted);
  const [other] = alike;
  // What was called so before has been asked about then.
  if (other === undefined || alike.some(({ id }) => id === named.id)) return [];
  const entry = entries.get(other.entries[0] ?? '')?.position;
  const amend = `If it is the same ${noun}, amend entry ${entry}: gapledger record entry-amended --replaces ${entry} --reason "…".`;
  const instead = entry === undefined ? '' : ` ${naming.instead?.(entry) ?? amend}`;
  return [
    {
      code: 'label-in-use',
      sentence: `${named.label} is a ${noun} already.${instead}`,
      choices: [{ answer: 'keep-both', label: 'there are two of that name: keep both' }],
    },
  ];
}

/** What an entry gives a label to, and what of that kind there is. */
function namingOf(event: Event, stand: Stand, names: Names): Naming | undefined {
  switch (event.type) {
    case 'stake-set': {
      const { stake: id, label } = event.body;
      return { noun: 'stake', named: { id, label }, others: [...stand.stakes.values()], instead: resurvey };
    }
    case 'group-laid-out': {
      const { group: id, label } = event.body;
      const others = [...stand.groups.values()].filter(({ introduced }) => introduced);
      return { noun: 'group', named: { id, label }, others };
    }
    case 'block-laid-out': {
      const { block: id, name: label } = event.body;
      const others = [...stand.blocks.values()].map((block) => ({ ...block, label: block.name }));
      return { noun: 'block', named: { id, label }, others };
    }
    case 'sapling-protected': {
      const { sapling: id, label } = event.body;
      return { noun: 'sapling', named: { id, label }, others: [...stand.saplings.values()] };
    }
    case 'patch-protected': {
      const { patch: id, label } = event.body;
      return { noun: 'patch', named: { id, label }, others: [...stand.patches.values()] };
    }
    case 'person-named': {
      const { person: id, name } = event.body;
      const others = [...stand.people.values()].map((person) => ({
        ...person,
        label: names.get(person.name),
      }));
      return { noun: 'person', named: { id, label: names.get(name) }, others };
    }
    default:
      return undefined;
  }
}

function resurvey(entry: number): string {
  return `If it was surveyed again, amend entry ${entry}: gapledger record entry-amended --replaces ${entry} --position "…" --reason "surveyed again".`;
}
