// GPX 1.0 and 1.1: waypoints as points; tracks, their segments one by one, and routes as lines. Coordinates and times stay
// as the receiver wrote them. Format: topografix.com/GPX/1/0 and /GPX/1/1.
import { columnsOf, counting, ImportRefusal, type Item, type Source, type Vertex } from '../source.ts';
import { childrenOf, childText, type Element, readXml } from './xml.ts';

/** Elements of a point, track or route that say something about it. */
const said = [
  'name',
  'cmt',
  'desc',
  'sym',
  'type',
  'ele',
  'time',
  'fix',
  'sat',
  'hdop',
  'vdop',
  'pdop',
  'number',
];

/** @throws ImportRefusal for a file that is no GPX, or a point without coordinates */
export function readGpx(text: string): Source {
  const root = readXml(text);
  if (root.name !== 'gpx')
    throw new ImportRefusal('file', root.name, 'is no GPX file: its root element is not gpx');
  const count = counting();
  const passedOver: string[] = [];
  const points = childrenOf(root, 'wpt').map((point, index): Item => {
    count.item();
    count.vertices(1);
    const where = `waypoint ${index + 1}`;
    return { where, shape: 'point', vertices: [vertexOf(point, where)], cells: cellsOf(point) };
  });
  const lines = [
    ...childrenOf(root, 'trk').flatMap((track, index) =>
      childrenOf(track, 'trkseg').map((segment, number) => ({
        of: track,
        where: `track ${index + 1}, segment ${number + 1}`,
        points: childrenOf(segment, 'trkpt'),
      })),
    ),
    ...childrenOf(root, 'rte').map((route, index) => ({
      of: route,
      where: `route ${index + 1}`,
      points: childrenOf(route, 'rtept'),
    })),
  ].flatMap(({ of, where, points: inside }): Item[] => {
    if (inside.length === 0) {
      passedOver.push(`${where} holds no points`);
      return [];
    }
    count.item();
    count.vertices(inside.length);
    const vertices = inside.map((point, index) => vertexOf(point, `${where}, point ${index + 1}`));
    return [{ where, shape: 'line', vertices, cells: cellsOf(of) }];
  });
  const items = [...points, ...lines];
  const version = root.attributes.version ?? '';
  return { format: `GPX ${version}`.trim(), crs: 'lonlat', items, columns: columnsOf(items), passedOver };
}

function vertexOf(point: Element, where: string): Vertex {
  const { lat, lon } = point.attributes;
  if (lat === undefined || lon === undefined)
    throw new ImportRefusal(where, '', 'has no lat or no lon; take the point out, or write both');
  const time = childText(point, 'time');
  return { x: lon.trim(), y: lat.trim(), ...(time === undefined ? {} : { time }) };
}

function cellsOf(element: Element): Record<string, string> {
  const cells = said.flatMap((name) => {
    const text = childText(element, name);
    return text === undefined ? [] : [[name, text] as const];
  });
  return Object.fromEntries(cells);
}
