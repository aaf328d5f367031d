// Items of a file -> things whose cells, places and species are read. Whatever a column as a whole leaves open is asked here.
import { defaultLengthUnit, lengthUnits, readQuantity, type UnitSystem } from '../../../events/index.ts';
import type { LonLat, PositionEntered } from '../../../place/index.ts';
import type { Doubting } from '../doubt.ts';
import { cellOf, type Mapping, type Role, roles } from '../mapping.ts';
import type { Item, Source, Vertex } from '../source.ts';
import type { Thing } from '../things.ts';
import { coordinateReader, type Near } from './coordinates.ts';
import { type Cell, decimalComma, isBlank, plainNumber, sentinelsIn, unitOf } from './numbers.ts';
import { speciesReader } from './species.ts';

export type Problem = Readonly<{ where: string; sentence: string }>;
export type ReadThing = Thing & Readonly<{ at: readonly LonLat[] }>;
export type Things = Readonly<{
  things: readonly ReadThing[];
  problems: readonly Problem[];
  crs: string | undefined;
}>;

/** Measures, and the part that each plays for the unit of bare numbers. */
const measures = {
  dbh: 'diameter',
  height: 'height',
  merchantableHeight: 'height',
  width: 'distance',
  distance: 'distance',
  accuracy: 'distance',
} as const;
const numeric: readonly Role[] = [
  'dbh',
  'height',
  'merchantableHeight',
  'width',
  'distance',
  'accuracy',
  'lat',
  'lon',
  'x',
  'y',
  'slope',
  'azimuth',
];

type Given = Readonly<{
  mapping: Mapping;
  crs: string | undefined;
  working: string | undefined;
  near: Near;
  units: UnitSystem;
  ownList: string;
}>;

export function readThings(source: Source, items: readonly Item[], given: Given, doubts: Doubting): Things {
  const rows = withCells(items, given.mapping, doubts);
  const units = measureUnits(rows, given, doubts);
  const species = speciesReader(cellsIn(rows, 'species'), given.ownList, doubts);
  const placed = rows.map((row) => ({ ...row, vertices: verticesOf(row) }));
  const said = given.crs ?? (rows.some(({ cells }) => cells.lat !== undefined) ? 'lonlat' : source.crs);
  const coordinates = coordinateReader(
    placed.flatMap(({ item, vertices }) => vertices.map((vertex) => ({ where: item.where, vertex }))),
    { said, working: given.working, near: given.near },
    doubts,
  );
  const problems: Problem[] = [];
  const things = placed.flatMap(({ item, cells, vertices }): ReadThing[] => {
    const fault = (sentence: string) => {
      problems.push({ where: item.where, sentence });
      return [];
    };
    const half =
      (cells.lat === undefined) !== (cells.lon === undefined) ||
      (cells.x === undefined) !== (cells.y === undefined);
    if (half) return fault('one of its two coordinates is missing');
    const accuracy = accuracyOf(cells.accuracy, units.accuracy);
    const places: PositionEntered[] = [];
    const at: LonLat[] = [];
    for (const vertex of vertices) {
      const read = coordinates.read(vertex);
      if (read === undefined) continue;
      if (!read.ok) return fault(read.remedy);
      places.push(withTaking(read.position, vertex, source.format, accuracy));
      at.push(read.at);
    }
    const measured = Object.fromEntries(
      Object.entries(cells).map(([role, text]) => [role, withUnit(text, units[role as keyof typeof units])]),
    );
    const text = cells.species;
    return [
      {
        item,
        cells: measured,
        places,
        placeText: offsetOf(cells, given.mapping, units.distance),
        species: text === undefined ? undefined : species(text),
        at,
      },
    ];
  });
  return {
    things,
    problems,
    crs: things.some(({ at }) => at.length > 0) ? coordinates.crs : undefined,
  };
}

type Row = Readonly<{ item: Item; cells: Readonly<Partial<Record<Role, string>>> }>;

/** Cells by role: blanks, decimal commas and stand-ins for "unknown" settled. */
function withCells(items: readonly Item[], mapping: Mapping, doubts: Doubting): Row[] {
  const rows = items.map((item) => {
    const cells: Partial<Record<Role, string>> = {};
    for (const role of roles) {
      const text = cellOf(item.cells, mapping[role])?.trim();
      if (text !== undefined && !isBlank(text)) cells[role] = text;
    }
    return { item, cells };
  });
  const point = decimalComma(
    numeric.flatMap((role) => cellsIn(rows, role)),
    doubts,
  );
  for (const { cells } of rows)
    for (const role of numeric) if (cells[role] !== undefined) cells[role] = point(cells[role]);
  for (const role of ['dbh', 'height', 'merchantableHeight'] as const) {
    const isUnknown = sentinelsIn(role, cellsIn(rows, role), doubts);
    for (const { cells } of rows) if (cells[role] !== undefined && isUnknown(cells[role])) delete cells[role];
  }
  return rows;
}

function cellsIn(rows: readonly Row[], role: Role): Cell[] {
  return rows.flatMap(({ item, cells }) => {
    const text = cells[role];
    return text === undefined ? [] : [{ where: item.where, text }];
  });
}

function measureUnits(
  rows: readonly Row[],
  { mapping, units }: Given,
  doubts: Doubting,
): Record<keyof typeof measures, string> {
  const made = Object.entries(measures).map(([name, part]) => {
    const role = name as keyof typeof measures;
    const usual = defaultLengthUnit(units, part);
    const choices = part === 'diameter' ? ['in', 'cm', 'mm'] : ['ft', 'm'];
    return [
      role,
      unitOf(role, { cells: cellsIn(rows, role), unit: mapping[role]?.unit, usual, choices }, doubts),
    ] as const;
  });
  return Object.fromEntries(made) as Record<keyof typeof measures, string>;
}

function verticesOf({ item, cells }: Row): readonly Vertex[] {
  if (item.shape !== 'row') return item.vertices;
  const [x, y] = cells.lat === undefined ? [cells.x, cells.y] : [cells.lon, cells.lat];
  return x === undefined || y === undefined ? [] : [{ x, y }];
}

function withUnit(text: string | undefined, unit: string | undefined): string | undefined {
  if (text === undefined || unit === undefined) return text;
  const plain = plainNumber(text);
  return plain === undefined ? text : `${plain} ${unit}`;
}

function accuracyOf(text: string | undefined, unit: string) {
  const read = text === undefined ? undefined : readQuantity(text, lengthUnits, unit);
  return read?.ok ? read.value : undefined;
}

/** When and with what a fix was taken, and how well, as far as the file says. */
function withTaking(
  position: PositionEntered,
  { time }: Vertex,
  format: string,
  accuracy: ReturnType<typeof accuracyOf>,
): PositionEntered {
  if (position.how !== 'fix' && position.how !== 'grid') return position;
  const well = accuracy === undefined ? position : { ...position, accuracy };
  if (well.how !== 'fix' || !format.startsWith('GPX')) return well;
  return { ...well, ...(time === undefined ? {} : { fixedAt: time.slice(0, 40) }), source: format };
}

/** "135 mag, 42 ft from stake A", where the row was measured so. */
function offsetOf(cells: Row['cells'], mapping: Mapping, unit: string): string | undefined {
  const { azimuth, distance, slope, from } = cells;
  if (azimuth === undefined || distance === undefined || from === undefined) return undefined;
  const north = /[a-z]/i.test(azimuth) ? azimuth : `${azimuth} ${mapping.azimuth?.unit ?? ''}`.trim();
  const anchor = /^(?:stake|stem)\s/i.test(from) ? from : `stake ${from}`;
  const steep =
    slope === undefined
      ? ''
      : `, slope ${/[%a-z]/i.test(slope) ? slope : `${slope} ${mapping.slope?.unit ?? '%'}`}`;
  return `${north}, ${withUnit(distance, unit)}${steep} from ${anchor}`;
}
