// GET /layers and /layers/….geojson: the map layers, one address each, described where they are described.
import { createRoute, z } from '@hono/zod-openapi';
import {
  fileName,
  geoJsonText,
  type Layer,
  layers,
  toGeoJson,
  viewOf,
  wantedCrs,
} from '../../layers/index.ts';
import { headText } from '../../log/entry/index.ts';
import { json, text, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { momentQuery, readMoment } from '../moment.ts';
import { badParameter } from '../problems.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const column = z.strictObject({
  name: z.string(),
  type: z.enum(['text', 'number', 'integer', 'yes-no', 'time']),
  help: z.string(),
  unit: z.string().optional(),
});
const listed = z.strictObject({
  name: z.string(),
  title: z.string(),
  help: z.string(),
  geometry: z.enum(['Point', 'LineString', 'Polygon']),
  columns: z.array(column),
  longitudeLatitude: z.string().openapi({ description: 'Address of the layer in WGS 84 (RFC 7946).' }),
  projected: z.string().nullable().openapi({ description: 'Address of the layer in the working CRS.' }),
});
const list = z.strictObject({ workingCrs: z.string().nullable(), layers: z.array(listed) }).openapi('Layers');

const listRoute = createRoute({
  method: 'get',
  path: '/layers',
  summary: 'The map layers',
  description: 'What layers there are, what stands in their columns, and where to fetch them.',
  request: { query: z.strictObject({}) },
  responses: {
    200: { description: 'The layers.', content: { 'application/json': { schema: list } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

const layerQuery = momentQuery.extend({
  crs: z
    .string()
    .openapi({
      description:
        'A reference system by its EPSG code, or "working" for that of the logbook; easting and northing in its unit, with the crs member of 2008. Left out: longitude and latitude in WGS 84, as in RFC 7946.',
      example: 'EPSG:2264',
    })
    .optional(),
});

const position = z.tuple([z.number(), z.number()]);
const geometry = {
  Point: z.strictObject({ type: z.literal('Point'), coordinates: position }),
  LineString: z.strictObject({ type: z.literal('LineString'), coordinates: z.array(position) }),
  Polygon: z.strictObject({ type: z.literal('Polygon'), coordinates: z.array(z.array(position)) }),
};

/** The schema of a layer's collection; its columns are those of the layer. */
function collectionOf(layer: Layer) {
  const value = {
    text: z.string(),
    number: z.number(),
    integer: z.int(),
    'yes-no': z.boolean(),
    time: z.string(),
  };
  const columns = layer.columns.map(({ name, type, help }) => [
    name,
    value[type].nullable().openapi({ description: help }),
  ]);
  const feature = z.strictObject({
    type: z.literal('Feature'),
    id: z.string(),
    geometry: geometry[layer.geometry],
    properties: z.strictObject(Object.fromEntries(columns) as Record<string, z.ZodType>),
  });
  return z.looseObject({ type: z.literal('FeatureCollection'), features: z.array(feature) });
}

function layerRoute(layer: Layer) {
  const schema = collectionOf(layer).openapi(`Layer.${layer.name}`);
  return createRoute({
    method: 'get',
    path: `/layers/${layer.name}.geojson`,
    summary: `Layer: ${layer.title}`,
    description: layer.help,
    request: { query: layerQuery },
    responses: {
      200: {
        description:
          'Longitude and latitude as application/geo+json; with "crs" projected, as application/json.',
        content: { 'application/geo+json': { schema }, 'application/json': { schema } },
      },
      304: { description: 'Nothing was appended since.' },
      ...problemAnswers('bad-parameter', 'not-acceptable'),
    },
  });
}

export function addLayers(app: App, room: Room): void {
  addRoute(app, listRoute, (context) => {
    wanted(context, ['application/json']);
    return room.reading.look({}, ({ folded, head }) => {
      const workingCrs = folded.stand.logbook?.body.crs ?? null;
      const all = layers.map((layer) => listedLayer(layer, workingCrs));
      return unchanged(context, head, room.program) ?? json(context, { workingCrs, layers: all });
    });
  });
  for (const layer of layers) {
    addRoute(app, layerRoute(layer), async (context) => {
      const query = context.req.valid('query');
      const crs = query.crs === undefined ? undefined : await readCrs(room, query.crs);
      const mediaType = crs === undefined ? 'application/geo+json' : 'application/json';
      wanted(context, [mediaType, 'application/json']);
      return room.reading.look(await readMoment(room, query), ({ folded, head }) => {
        const same = unchanged(context, head, `${crs ?? ''} ${room.program}`);
        if (same) return same;
        const options = { head: headText(head), ...(crs === undefined ? {} : { crs }) };
        context.header('Content-Crs', `<${crsAddress(crs)}>`);
        context.header('Content-Disposition', `inline; filename="${fileName(layer, crs)}"`);
        return text(
          context,
          mediaType,
          geoJsonText(toGeoJson(layer, viewOf(folded), options).collection, layer),
        );
      });
    });
  }
}

function listedLayer({ name, title, help, geometry: type, columns }: Layer, crs: string | null) {
  const address = `/layers/${name}.geojson`;
  const projected = crs === null ? null : `${address}?crs=${crs}`;
  return { name, title, help, geometry: type, columns, longitudeLatitude: address, projected };
}

async function readCrs(room: Room, text: string): Promise<string> {
  const working = await room.reading.look({}, ({ folded }) => folded.stand.logbook?.body.crs);
  const read = wantedCrs(text, working, 'crs');
  if (read.ok) return read.code;
  throw badParameter({ field: 'crs', value: text, remedy: read.remedy });
}

/** Names of reference systems as in OGC API - Features, part 2 (OGC 18-058r1), header Content-Crs. */
function crsAddress(crs: string | undefined): string {
  return crs === undefined
    ? 'http://www.opengis.net/def/crs/OGC/1.3/CRS84'
    : `http://www.opengis.net/def/crs/EPSG/0/${crs.slice('EPSG:'.length)}`;
}
