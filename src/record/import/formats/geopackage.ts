// GeoPackage (OGC 12-128r18): feature tables of an SQLite file, read from memory, with the geometry as WKB (OGC 06-103r4).
import Sqlite from 'better-sqlite3';
import { columnsOf, counting, ImportRefusal, type Item, type Source, type Vertex } from '../source.ts';
import { readGeometry } from './wkb.ts';

type Layer = Readonly<{ table: string; column: string; srs: number }>;

/** @throws ImportRefusal for what is no GeoPackage, or one with several layers of different systems */
export function readGeoPackage(bytes: Uint8Array, wanted?: string): Source {
  let database: Sqlite.Database | undefined;
  try {
    database = new Sqlite(Buffer.from(bytes));
    // The file is a stranger's: functions and views that it brings are not run.
    database.pragma('trusted_schema = OFF');
    database.pragma('query_only = ON');
    return read(database, wanted);
  } catch (error) {
    if (error instanceof Sqlite.SqliteError || error instanceof RangeError || error instanceof TypeError)
      throw new ImportRefusal('file', '', `is no GeoPackage that can be read (${error.message})`);
    throw error;
  } finally {
    database?.close();
  }
}

function read(database: Sqlite.Database, wanted: string | undefined): Source {
  const all = database
    .prepare<[], Layer>(
      `SELECT g.table_name AS "table", g.column_name AS "column", g.srs_id AS srs
       FROM gpkg_geometry_columns g JOIN gpkg_contents c ON c.table_name = g.table_name
       WHERE c.data_type = 'features' ORDER BY g.table_name`,
    )
    .all();
  const layers = wanted === undefined ? all : all.filter(({ table }) => table === wanted);
  const [first, ...others] = layers;
  const names = all.map(({ table }) => String(table).slice(0, 100)).join(', ');
  if (first === undefined)
    throw new ImportRefusal(
      'layer',
      wanted ?? '',
      names === '' ? 'the file holds no layer of features' : `is not in the file; it holds ${names}`,
    );
  if (others.length > 0)
    throw new ImportRefusal('file', '', `holds several layers; say which with --layer: ${names}`);
  const { table, column, srs } = first;
  const count = counting();
  const passedOver: string[] = [];
  const items: Item[] = [];
  const rows = database
    .prepare<[], Record<string, unknown>>(`SELECT * FROM ${quoted(table)} LIMIT 200001`)
    .iterate();
  let number = 0;
  for (const row of rows) {
    number += 1;
    const where = `row ${number}`;
    const geometry = row[column];
    if (!(geometry instanceof Uint8Array)) {
      passedOver.push(`${where} has no geometry`);
      continue;
    }
    const cells = cellsOf(row, column);
    for (const { shape, vertices, holes } of readGeometry(geometry, where)) {
      count.item();
      count.vertices(vertices.length);
      if (holes) passedOver.push(`${where}: holes of the polygon`);
      items.push({ where, shape, vertices: vertices as Vertex[], cells });
    }
  }
  return { format: 'GeoPackage', crs: crsOf(database, srs), items, columns: columnsOf(items), passedOver };
}

function crsOf(database: Sqlite.Database, srs: number): string | undefined {
  const system = database
    .prepare<[number], { organization: string; code: number }>(
      'SELECT organization, organization_coordsys_id AS code FROM gpkg_spatial_ref_sys WHERE srs_id = ?',
    )
    .get(srs);
  if (system === undefined || String(system.organization).toUpperCase() !== 'EPSG') return undefined;
  return system.code === 4326 ? 'lonlat' : `EPSG:${system.code}`;
}

function cellsOf(row: Readonly<Record<string, unknown>>, geometry: string): Record<string, string> {
  const cells = Object.entries(row).flatMap(([name, value]) => {
    if (name === geometry || value === null || value instanceof Uint8Array) return [];
    return [[name, typeof value === 'string' ? value : JSON.stringify(value)] as const];
  });
  return Object.fromEntries(cells);
}

function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}
