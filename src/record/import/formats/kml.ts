// KML (OGC 12-007r2): placemarks with points, lines and polygons; extended data as cells. Of a polygon its outer boundary.
import { columnsOf, counting, ImportRefusal, type Item, type Source, type Vertex } from '../source.ts';
import { childText, type Element, readXml, within } from './xml.ts';

const geometries = new Set(['Point', 'LineString', 'LinearRing', 'Polygon', 'Track', 'Model']);
const shapes: Readonly<Record<string, Item['shape']>> = {
  Point: 'point',
  LineString: 'line',
  Track: 'line',
  LinearRing: 'ring',
  Polygon: 'ring',
};

/** @throws ImportRefusal for a file that is no KML, or coordinates that are none */
export function readKml(text: string): Source {
  const root = readXml(text);
  if (root.name !== 'kml')
    throw new ImportRefusal('file', root.name, 'is no KML file: its root element is not kml');
  const count = counting();
  const passedOver: string[] = [];
  const items: Item[] = [];
  let number = 0;
  for (const placemark of within(root, new Set(['Placemark']))) {
    number += 1;
    const where = `placemark ${number}`;
    const cells = cellsOf(placemark);
    let found = 0;
    for (const geometry of within(placemark, geometries)) {
      const shape = shapes[geometry.name];
      if (shape === undefined) continue;
      found += 1;
      if (innerRings(geometry)) passedOver.push(`${where}: holes of the polygon`);
      const vertices = verticesOf(geometry, where);
      count.item();
      count.vertices(vertices.length);
      items.push({ where, shape, vertices, cells });
    }
    if (found === 0) passedOver.push(`${where} has no point, line or polygon`);
  }
  return { format: 'KML', crs: 'lonlat', items, columns: columnsOf(items), passedOver };
}

function innerRings(geometry: Element): boolean {
  return geometry.children.some(({ name }) => name === 'innerBoundaryIs');
}

function verticesOf(geometry: Element, where: string): Vertex[] {
  if (geometry.name === 'Track') {
    const times = geometry.children.filter(({ name }) => name === 'when').map(({ text }) => text.trim());
    const corners = geometry.children.filter(({ name }) => name === 'coord');
    return corners.map(({ text }, index) => {
      const time = times[index];
      return { ...vertexOf(text.trim().split(/\s+/), where), ...(time === undefined ? {} : { time }) };
    });
  }
  const outer =
    geometry.name === 'Polygon' ? geometry.children.find(({ name }) => name === 'outerBoundaryIs') : geometry;
  const [coordinates] = outer === undefined ? [] : [...within(outer, new Set(['coordinates']))];
  const written = coordinates?.text.trim() ?? '';
  if (written === '') throw new ImportRefusal(where, '', 'has no coordinates; take it out or write them');
  return written.split(/\s+/).map((tuple) => vertexOf(tuple.split(','), where));
}

function vertexOf([x = '', y = '']: readonly string[], where: string): Vertex {
  if (x === '' || y === '')
    throw new ImportRefusal(where, `${x},${y}`, 'is no pair of coordinates; KML writes longitude,latitude');
  return { x, y };
}

function cellsOf(placemark: Element): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const name of ['name', 'description']) {
    const text = childText(placemark, name);
    if (text !== undefined) cells[name] = text;
  }
  for (const { name, attributes, text, children } of within(
    placemark,
    new Set(['Data', 'SimpleData', 'when']),
  )) {
    const value = (children.find((child) => child.name === 'value')?.text ?? text).trim();
    if (name === 'when') cells.time ??= value;
    else if (attributes.name !== undefined && value !== '') cells[attributes.name] = value;
  }
  return cells;
}
