// Into which row of a stand table a stem or a tree of a plot goes: by size class, species or group.
import { type SpeciesEntered, speciesName } from '../../events/index.ts';
import {
  FIVE_CENTIMETRE_CLASSES,
  type SizeClass,
  type SizeClasses,
  type System,
  sizeClass,
  TWO_INCH_CLASSES,
} from '../../measure/index.ts';
import { compareText } from '../entry.ts';
import type { Stand } from '../state.ts';

export type RowsAsked = Readonly<{
  by: 'class' | 'species' | 'group';
  system: System;
  /** Two inches or five centimetres wide if left out. */
  classes?: SizeClasses;
}>;

/** What a row is told by; DBH in inches. */
export type RowSubject = Readonly<{
  species: SpeciesEntered | undefined;
  inches: number | undefined;
  group?: string | undefined;
}>;

type Row<Subject> = { label: string; size: SizeClass | null; of: Subject[] };

/** The rows in their order, each with what is in it: classes from small to large, species and groups by their names. */
export function rowsOf<Subject>(
  subjects: readonly Subject[],
  told: (subject: Subject) => RowSubject,
  stand: Stand,
  asked: RowsAsked,
): Row<Subject>[] {
  const rows = new Map<string, Row<Subject>>();
  const keyOf = keyedBy(stand, asked);
  for (const subject of subjects) {
    const { key, label, size } = keyOf(told(subject));
    const row = rows.get(key);
    if (row) row.of.push(subject);
    else rows.set(key, { label, size, of: [subject] });
  }
  return [...rows.values()].sort((a, b) =>
    asked.by === 'class'
      ? (a.size?.lower ?? Number.POSITIVE_INFINITY) - (b.size?.lower ?? Number.POSITIVE_INFINITY)
      : compareText(a.label, b.label),
  );
}

type Keyed = { key: string; label: string; size: SizeClass | null };

function keyedBy(stand: Stand, asked: RowsAsked): (subject: RowSubject) => Keyed {
  const none = (label: string): Keyed => ({ key: `\n${label}`, label, size: null });
  if (asked.by === 'species')
    return ({ species }) => {
      if (species === undefined) return none('species not recorded');
      const label = speciesName(species);
      return { key: label, label, size: null };
    };
  if (asked.by === 'group')
    return ({ group: id }) => {
      const group = id === undefined ? undefined : stand.groups.get(id);
      return group === undefined ? none('in no group') : { key: group.id, label: group.label, size: null };
    };
  const classes = asked.classes ?? (asked.system === 'inch' ? TWO_INCH_CLASSES : FIVE_CENTIMETRE_CLASSES);
  return ({ inches }) => {
    if (inches === undefined) return none('DBH not measured');
    const under: SizeClass = { lower: 0, upper: classes.limits[0] ?? null, unit: classes.unit };
    const size = sizeClass({ value: inches, unit: 'in' }, classes) ?? under;
    return { key: String(size.lower), label: classLabel(size), size };
  };
}

/** "7 to under 9 in". */
function classLabel({ lower, upper, unit }: SizeClass): string {
  return upper === null ? `${lower} ${unit} and more` : `${lower} to under ${upper} ${unit}`;
}
