// Geometry as a GeoPackage stores it: a short header, then well-known binary, with heights and measures passed over.
import { ImportRefusal, type Vertex } from '../source.ts';

export type Shaped = Readonly<{
  shape: 'point' | 'line' | 'ring';
  vertices: readonly Vertex[];
  holes: boolean;
}>;

type Cursor = { view: DataView; at: number; where: string };

const deepest = 8;

/** @throws ImportRefusal for bytes that are no such geometry */
export function readGeometry(bytes: Uint8Array, where: string): Shaped[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    if (view.getUint16(0) !== 0x4750)
      throw notRead(where, 'its geometry does not begin as one of a GeoPackage');
    const flags = view.getUint8(3);
    if ((flags & 0x20) !== 0) throw notRead(where, 'its geometry is of an extended kind');
    const envelope = [0, 32, 48, 48, 64][(flags >> 1) & 7];
    if (envelope === undefined) throw notRead(where, 'its geometry has no valid header');
    if ((flags & 0x10) !== 0) return [];
    return shapesAt({ view, at: 8 + envelope, where }, 0);
  } catch (error) {
    if (error instanceof RangeError) throw notRead(where, 'its geometry is cut off');
    throw error;
  }
}

function shapesAt(cursor: Cursor, depth: number): Shaped[] {
  if (depth > deepest) throw notRead(cursor.where, 'its geometry is nested too deeply');
  const little = cursor.view.getUint8(cursor.at) === 1;
  const code = cursor.view.getUint32(cursor.at + 1, little);
  cursor.at += 5;
  const further = [0, 1, 1, 2][Math.floor(code / 1000)];
  if (further === undefined) throw notRead(cursor.where, `its geometry is of type ${code}`);
  return shapesOf(cursor, { kind: code % 1000, little, dimensions: 2 + further }, depth);
}

type Header = Readonly<{ kind: number; little: boolean; dimensions: number }>;

function shapesOf(cursor: Cursor, header: Header, depth: number): Shaped[] {
  switch (header.kind) {
    case 1: {
      const [vertex] = verticesAt(cursor, 1, header);
      // An empty point is written as NaN.
      return vertex === undefined || vertex.x === 'NaN'
        ? []
        : [{ shape: 'point', vertices: [vertex], holes: false }];
    }
    case 2:
      return [{ shape: 'line', vertices: verticesAt(cursor, countAt(cursor, header), header), holes: false }];
    case 3: {
      const rings = countAt(cursor, header);
      const all = Array.from({ length: rings }, () => verticesAt(cursor, countAt(cursor, header), header));
      return all[0] === undefined ? [] : [{ shape: 'ring', vertices: all[0], holes: rings > 1 }];
    }
    case 4:
    case 5:
    case 6:
    case 7:
      return Array.from({ length: countAt(cursor, header) }, () => shapesAt(cursor, depth + 1)).flat();
    default:
      throw notRead(cursor.where, `its geometry is of type ${header.kind}, which is not read here`);
  }
}

/** How many follow; never more than there are bytes for. */
function countAt(cursor: Cursor, { little }: Header): number {
  const count = cursor.view.getUint32(cursor.at, little);
  cursor.at += 4;
  if (count * 4 > cursor.view.byteLength - cursor.at) throw new RangeError('more than there is');
  return count;
}

function verticesAt(cursor: Cursor, count: number, { little, dimensions }: Header): Vertex[] {
  return Array.from({ length: count }, () => {
    const x = cursor.view.getFloat64(cursor.at, little);
    const y = cursor.view.getFloat64(cursor.at + 8, little);
    cursor.at += 8 * dimensions;
    return { x: String(x), y: String(y) };
  });
}

function notRead(where: string, why: string): ImportRefusal {
  return new ImportRefusal(where, '', `${why}; export the layer anew`);
}
