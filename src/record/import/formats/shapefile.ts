// Shapefiles (ESRI technical description, 1998): points, lines and polygons with their table. Read here and not by a
// library, for the one there is takes a file that was cut off for one that ends there.
import { columnsOf, counting, ImportRefusal, type Item, type Source, type Vertex } from '../source.ts';
import { readDbf } from './dbf.ts';
import { crsOfWkt } from './wkt.ts';

export type ShapefileParts = Readonly<{
  shp: Uint8Array;
  dbf?: Uint8Array | undefined;
  prj?: string | undefined;
  cpg?: string | undefined;
}>;

const shapes: Readonly<Record<number, Item['shape']>> = { 1: 'point', 3: 'line', 5: 'ring', 8: 'point' };

/** @throws ImportRefusal for a file that is cut off, or of a kind that is not read */
export function readShapefile({ shp, dbf, prj, cpg }: ShapefileParts): Source {
  const view = new DataView(shp.buffer, shp.byteOffset, shp.byteLength);
  if (shp.length < 100 || view.getInt32(0) !== 9994)
    throw damaged('its first bytes are not those of a shapefile');
  const rows = dbf === undefined ? [] : readDbf(dbf, cpg);
  const count = counting();
  const passedOver: string[] =
    dbf === undefined ? ['there is no .dbf beside it, so nothing is known but the shapes'] : [];
  const items: Item[] = [];
  let number = 0;
  for (let at = 100; at < shp.length; number += 1) {
    if (at + 12 > shp.length) throw damaged(`record ${number + 1} is cut off`);
    const length = view.getInt32(at + 4) * 2;
    if (length < 4 || at + 8 + length > shp.length) throw damaged(`record ${number + 1} is cut off`);
    const record = new DataView(shp.buffer, shp.byteOffset + at + 8, length);
    const where = `record ${number + 1}`;
    const parts = partsOf(record, where, passedOver);
    for (const { shape, vertices } of parts) {
      count.item();
      count.vertices(vertices.length);
      items.push({ where, shape, vertices, cells: rows[number] ?? {} });
    }
    at += 8 + length;
  }
  if (dbf !== undefined && rows.length !== number)
    throw damaged(
      `it has ${number} shapes and its table ${rows.length} rows, so which belongs to which cannot be told`,
    );
  const crs = prj === undefined ? undefined : crsOfWkt(prj, firstPoint(items));
  return { format: 'shapefile', crs, items, columns: columnsOf(items), passedOver };
}

type Part = Readonly<{ shape: Item['shape']; vertices: readonly Vertex[] }>;

function partsOf(record: DataView, where: string, passedOver: string[]): Part[] {
  const type = record.getInt32(0, true);
  if (type === 0) {
    passedOver.push(`${where} has no shape`);
    return [];
  }
  // Types with heights (11 …) and with measures (21 …) begin like those without.
  const shape = shapes[type % 10];
  if (shape === undefined || type > 28) throw damaged(`${where} is of type ${type}, which is not read here`);
  try {
    if (type % 10 === 1) return [{ shape, vertices: [pointAt(record, 4, where)] }];
    if (type % 10 === 8) {
      return pointsAt(record, 40, checked(record.getInt32(36, true), record, 16), where).map((vertex) => ({
        shape,
        vertices: [vertex],
      }));
    }
    return ringsOrLines(record, shape, where, passedOver);
  } catch (error) {
    if (error instanceof RangeError) throw damaged(`${where} is cut off`);
    throw error;
  }
}

function ringsOrLines(record: DataView, shape: Item['shape'], where: string, passedOver: string[]): Part[] {
  const parts = checked(record.getInt32(36, true), record, 4);
  const points = checked(record.getInt32(40, true), record, 16);
  const starts = Array.from({ length: parts }, (_, index) => record.getInt32(44 + index * 4, true));
  const all = pointsAt(record, 44 + parts * 4, points, where);
  const found = starts.flatMap((start, index): Part[] => {
    const end = starts[index + 1] ?? points;
    if (start < 0 || start > end || end > points) throw damaged(`the parts of ${where} are out of order`);
    const vertices = all.slice(start, end);
    // Outer rings go round clockwise, holes the other way.
    if (shape === 'ring' && !isClockwise(vertices)) {
      passedOver.push(`${where}: a hole of the polygon, or a ring that is wound the wrong way`);
      return [];
    }
    return vertices.length === 0 ? [] : [{ shape, vertices }];
  });
  // A single ring that is wound the wrong way is no hole: there is nothing that it could be a hole in.
  if (shape === 'ring' && found.length === 0 && parts === 1) return [{ shape, vertices: all }];
  return found;
}

function checked(count: number, record: DataView, size: number): number {
  if (count < 0 || count * size > record.byteLength) throw new RangeError('more than the record holds');
  return count;
}

function pointsAt(record: DataView, offset: number, count: number, where: string): Vertex[] {
  return Array.from({ length: count }, (_, index) => pointAt(record, offset + index * 16, where));
}

function pointAt(record: DataView, offset: number, where: string): Vertex {
  const x = record.getFloat64(offset, true);
  const y = record.getFloat64(offset + 8, true);
  if (!Number.isFinite(x) || !Number.isFinite(y))
    throw damaged(`${where} has a coordinate that is no number`);
  return { x: String(x), y: String(y) };
}

function isClockwise(ring: readonly Vertex[]): boolean {
  let twice = 0;
  for (const [index, { x, y }] of ring.entries()) {
    const next = ring[(index + 1) % ring.length] ?? ring[0];
    if (next !== undefined) twice += (Number(next.x) - Number(x)) * (Number(next.y) + Number(y));
  }
  return twice > 0;
}

function firstPoint(items: readonly Item[]): { x: number; y: number } | undefined {
  const vertex = items[0]?.vertices[0];
  return vertex && { x: Number(vertex.x), y: Number(vertex.y) };
}

function damaged(why: string): ImportRefusal {
  return new ImportRefusal('file', '', `is damaged, or no shapefile: ${why}`);
}
