// Which column is read as what. Headings that say so themselves need no mapping; others are mapped by hand, and a mapping
// that has a name is kept in the log with the import, so that the next file is read by the name alone.
import { ImportRefusal } from './source.ts';

/** What a cell can be read as: fields of the entries, and parts of a place or a time. */
export const roles = [
  'tag',
  'label',
  'name',
  'mark',
  'species',
  'dbh',
  'height',
  'merchantableHeight',
  'group',
  'block',
  'reason',
  'purpose',
  'decaySigns',
  'defects',
  'vigor',
  'product',
  'grade',
  'note',
  'what',
  'width',
  'date',
  'time',
  'lat',
  'lon',
  'x',
  'y',
  'azimuth',
  'distance',
  'slope',
  'from',
  'accuracy',
] as const;
export type Role = (typeof roles)[number];

export type Column = Readonly<{
  /** One column, or several whose values are joined with a hyphen. */
  columns: readonly string[];
  /** Unit of bare numbers in it. */
  unit?: string | undefined;
}>;
export type Mapping = Readonly<Partial<Record<Role, Column>>>;

/** How headings are written, without their unit, capitals, spaces and signs. */
const headings: Readonly<Record<string, Role>> = {
  tag: 'tag',
  tagno: 'tag',
  tagnumber: 'tag',
  treetag: 'tag',
  treeno: 'tag',
  treenumber: 'tag',
  tree: 'tag',
  label: 'label',
  stake: 'label',
  point: 'label',
  name: 'name',
  mark: 'mark',
  species: 'species',
  spcode: 'species',
  speciescode: 'species',
  sp: 'species',
  dbh: 'dbh',
  diameter: 'dbh',
  height: 'height',
  totalheight: 'height',
  merchantableheight: 'merchantableHeight',
  group: 'group',
  block: 'block',
  reason: 'reason',
  purpose: 'purpose',
  decaysigns: 'decaySigns',
  signs: 'decaySigns',
  defects: 'defects',
  vigor: 'vigor',
  vigour: 'vigor',
  product: 'product',
  grade: 'grade',
  note: 'note',
  notes: 'note',
  remark: 'note',
  remarks: 'note',
  comment: 'note',
  desc: 'note',
  description: 'note',
  cmt: 'note',
  what: 'what',
  width: 'width',
  date: 'date',
  day: 'date',
  time: 'time',
  datetime: 'time',
  timestamp: 'time',
  lat: 'lat',
  latitude: 'lat',
  lon: 'lon',
  long: 'lon',
  lng: 'lon',
  longitude: 'lon',
  x: 'x',
  easting: 'x',
  east: 'x',
  utme: 'x',
  utmx: 'x',
  utmeasting: 'x',
  y: 'y',
  northing: 'y',
  north: 'y',
  utmn: 'y',
  utmy: 'y',
  utmnorthing: 'y',
  azimuth: 'azimuth',
  bearing: 'azimuth',
  distance: 'distance',
  slope: 'slope',
  from: 'from',
  fromstake: 'from',
  accuracy: 'accuracy',
};

const units: ReadonlySet<string> = new Set([
  'in',
  'ft',
  'us-ft',
  'yd',
  'ch',
  'mm',
  'cm',
  'm',
  '%',
  'deg',
  'mag',
  'true',
]);

/** "DBH (in)", "dbh_mm" and "Height m" as the heading without its unit, and the unit. */
function headingParts(heading: string): { key: string; unit: string | undefined } {
  const [, bare = heading, bracketed, ending] =
    /^(.*?)(?:\s*[([]\s*([^)\]]+?)\s*[)\]]|[\s_.]([a-z%-]{1,5}))?\s*$/i.exec(heading) ?? [];
  const unit = (bracketed ?? ending)?.toLowerCase();
  const keep = unit !== undefined && units.has(unit);
  return { key: keyOf(keep || bracketed !== undefined ? bare : heading), unit: keep ? unit : undefined };
}

function keyOf(text: string): string {
  return text.toLowerCase().replaceAll(/[^a-z0-9]/g, '');
}

/** What the headings say by themselves; of two columns for the same, the first. */
export function mappingOf(columns: readonly string[]): Mapping {
  const found: Partial<Record<Role, Column>> = {};
  for (const column of columns) {
    const { key, unit } = headingParts(column);
    const role = Object.hasOwn(headings, key) ? headings[key] : undefined;
    if (role !== undefined) found[role] ??= { columns: [column], unit };
  }
  return found;
}

/**
 * Reads what somebody typed: "dbh=dbh_mm mm", "tag=tag+stemTag", "x=utm_e".
 * @throws ImportRefusal for a part that is not known, or a column that the file does not have
 */
export function typedMapping(typed: readonly string[], columns: readonly string[]): Mapping {
  const mapping: Partial<Record<Role, Column>> = {};
  for (const text of typed) {
    const at = text.indexOf('=');
    const role = roles.find(
      (known) => known.toLowerCase() === text.slice(0, at).replaceAll('-', '').trim().toLowerCase(),
    );
    if (at < 1 || role === undefined)
      throw new ImportRefusal(
        '--column',
        text,
        `write it as tag=COLUMN; what a column can be: ${roles.join(', ')}`,
      );
    mapping[role] = columnTyped(text.slice(at + 1).trim(), columns);
  }
  return mapping;
}

function columnTyped(text: string, columns: readonly string[]): Column {
  const whole = columnsNamed(text, columns);
  if (whole !== undefined) return { columns: whole };
  const [, name = '', unit] = /^(.*)\s+(\S+)$/.exec(text) ?? [];
  const named = unit !== undefined && units.has(unit) ? columnsNamed(name, columns) : undefined;
  if (named !== undefined) return { columns: named, unit };
  throw new ImportRefusal(
    '--column',
    text,
    `the file has no such column; it has ${columns.join(', ').slice(0, 500)}`,
  );
}

function columnsNamed(text: string, columns: readonly string[]): string[] | undefined {
  if (columns.includes(text)) return [text];
  const parts = text.split('+').map((part) => part.trim());
  return parts.every((part) => columns.includes(part)) ? parts : undefined;
}

/** The value of a role in these cells; undefined where there is none. */
export function cellOf(
  cells: Readonly<Record<string, string>>,
  column: Column | undefined,
): string | undefined {
  if (column === undefined) return undefined;
  const parts = column.columns.flatMap((name) => (Object.hasOwn(cells, name) ? [cells[name] ?? ''] : []));
  return parts.length === 0 ? undefined : parts.join('-');
}
