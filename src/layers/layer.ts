// What a layer is. Each is described once, in the file of its noun; every file format, the OGC API and the
// reference follow from that description.
import type { LonLat, Unresolved } from '../place/index.ts';
import type { Folded, Happening, Locator, Stand } from '../stand/index.ts';

/** The stand as layers see it. People are not in it: layers are handed on, and a name in them could not be erased. */
export type View = Readonly<{
  stand: Stand;
  folded: Folded;
  locator: Locator;
  /** What happened by an entry, with the time as it stands now. */
  happening: (entry: string) => Happening | undefined;
}>;

/** One geometry type per layer: desktop GIS shows only the first type of a mixed one. */
export type GeometryType = 'Point' | 'LineString' | 'Polygon';

/**
 * Where a feature is, in longitude and latitude; a ring is open and either way round. The standard error is
 * in metres and absent when it is not known, `via` says in words how the position came about.
 */
export type Shape = Readonly<{ points: readonly LonLat[]; via: string; standardError?: number }>;

/** A value in a table: flat, so that every format can carry it. Unknown is null. */
export type Value = string | number | boolean | null;
export type ValueType = 'text' | 'number' | 'integer' | 'yes-no' | 'time';

export type Column = Readonly<{
  /** Lower case with underscores; a unit is part of the name. Never `fid` or `ogc_fid`: desktop GIS owns those. */
  name: string;
  type: ValueType;
  help: string;
  unit?: string;
}>;

export type LayerFeature = Readonly<{
  /** Identity of the thing, a UUID that never changes. */
  id: string;
  label: string;
  shape: Shape;
  /** One value per column of the layer. */
  values: Readonly<Record<string, Value>>;
}>;

/** Something that is not in the layer, and why, with what to do. Nothing is left out without being listed. */
export type LeftOut = Readonly<{ label: string; why: string }>;

export type LayerContent = Readonly<{ features: readonly LayerFeature[]; leftOut: readonly LeftOut[] }>;

export type Layer = Readonly<{
  name: string;
  title: string;
  help: string;
  geometry: GeometryType;
  columns: readonly Column[];
  features: (view: View) => LayerContent;
}>;

/** A column together with where its value comes from. */
export type Told<Subject> = Column & Readonly<{ of: (subject: Subject, view: View) => Value }>;

/** A layer of things of one sort: which things, where each is, and what is told of it. */
export function defineLayer<Subject extends Readonly<{ id: string }>>(definition: {
  name: string;
  title: string;
  help: string;
  geometry: GeometryType;
  subjects: (view: View) => Iterable<Subject>;
  label: (subject: Subject, view: View) => string;
  shape: (subject: Subject, view: View) => Shape | Unresolved;
  columns: readonly Told<Subject>[];
}): Layer {
  const { name, title, help, geometry, subjects, label, shape } = definition;
  const told = [...identityColumns(label), ...definition.columns];
  const features = (view: View): LayerContent => {
    const placed: LayerFeature[] = [];
    const leftOut: LeftOut[] = [];
    for (const subject of subjects(view)) {
      const called = label(subject, view);
      const where = shape(subject, view);
      if ('why' in where) {
        leftOut.push({ label: called, why: where.why });
        continue;
      }
      const values = Object.fromEntries(told.map((column) => [column.name, column.of(subject, view)]));
      placed.push({
        id: subject.id,
        label: called,
        shape: where,
        values: {
          ...values,
          position_via: where.via,
          position_error_m: rounded(where.standardError, 2),
        },
      });
    }
    return { features: placed, leftOut };
  };
  const columns = [...told.map(withoutSource), ...positionColumns];
  return { name, title, help, geometry, columns, features };
}

function identityColumns<Subject extends Readonly<{ id: string }>>(
  label: (subject: Subject, view: View) => string,
): Told<Subject>[] {
  return [
    {
      name: 'uid',
      type: 'text',
      help: 'Identity (UUID). It stays the same when a tag is lost or replaced.',
      of: ({ id }) => id,
    },
    {
      name: 'label',
      type: 'text',
      help: 'What it is called: its tag or label, where it has one.',
      of: label,
    },
  ];
}

const positionColumns: readonly Column[] = [
  { name: 'position_via', type: 'text', help: 'How the position came about.' },
  {
    name: 'position_error_m',
    type: 'number',
    unit: 'm',
    help: 'Standard error of the horizontal position, of the worst corner where there are several; empty when it is not known.',
  },
];

function withoutSource<Subject>({ name, type, help, unit }: Told<Subject>): Column {
  return unit === undefined ? { name, type, help } : { name, type, help, unit };
}

/** A number to so many decimals; what is unknown or no number stays unknown. */
export function rounded(value: number | undefined, decimals: number): number | null {
  return value === undefined || !Number.isFinite(value) ? null : Number(value.toFixed(decimals)) + 0;
}
