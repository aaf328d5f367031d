// What a file holds, whatever its format: things with their coordinates and cells as written, nothing computed. And how a
// file is refused: a sentence that names what is wrong and what to do.

/** A corner, fix or point as the file writes it; x is longitude or easting, y latitude or northing. */
export type Vertex = Readonly<{ x: string; y: string; time?: string }>;

export type Item = Readonly<{
  /** Where in the file it stands: "line 5", "waypoint 3". */
  where: string;
  /** A row of a table has no shape of its own: its cells hold the coordinates, if anything does. */
  shape: 'row' | 'point' | 'line' | 'ring';
  vertices: readonly Vertex[];
  cells: Readonly<Record<string, string>>;
}>;

export type Source = Readonly<{
  /** Such as "GPX 1.1". */
  format: string;
  /** "lonlat" for longitude and latitude, an EPSG code, or undefined where the file does not say. */
  crs: string | undefined;
  items: readonly Item[];
  /** Headings of the cells, in the order of the file. */
  columns: readonly string[];
  /** What was passed over, in sentences. */
  passedOver: readonly string[];
}>;

/** How much is taken in. Beyond it a file is refused before memory is spent on it. */
export const limits = {
  fileBytes: 50_000_000,
  unzippedBytes: 200_000_000,
  zipMembers: 1000,
  items: 200_000,
  vertices: 1_000_000,
  columns: 500,
  cellCharacters: 10_000,
  xmlDepth: 64,
} as const;

/** The file cannot be taken in; nothing of it was. */
export class ImportRefusal extends Error {
  readonly field: string;
  readonly value: string;
  readonly remedy: string;

  constructor(field: string, value: string, remedy: string) {
    super(`${field}${value === '' ? '' : ` "${value}"`}: ${remedy}`);
    this.name = 'ImportRefusal';
    this.field = field;
    this.value = value;
    this.remedy = remedy;
  }
}

/** Counts what comes in, and refuses what is too much. */
export function counting(): Readonly<{ item: () => void; vertices: (count: number) => void }> {
  const seen = { items: 0, vertices: 0 };
  return {
    item: () => {
      seen.items += 1;
      if (seen.items > limits.items) throw tooMuch('things', limits.items);
    },
    vertices: (count) => {
      seen.vertices += count;
      if (seen.vertices > limits.vertices) throw tooMuch('points', limits.vertices);
    },
  };
}

function tooMuch(what: string, most: number): ImportRefusal {
  const remedy = `holds more than ${most.toLocaleString('en-US')} ${what}; divide it into several files`;
  return new ImportRefusal('file', '', remedy);
}

/** The names of all cells, in the order in which they first come. */
export function columnsOf(items: readonly Item[]): string[] {
  const names = new Set<string>();
  for (const { cells } of items) for (const name of Object.keys(cells)) names.add(name);
  return [...names];
}
