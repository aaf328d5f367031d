// What lies on the ground beside the trees: streams, water, roads, neighbours. One layer for each kind of geometry.
import { isUnresolved } from '../place/index.ts';
import { type Feature, featureShape, words } from '../stand/index.ts';
import { areaColumns, count, entryTimes, lengthColumns, text, yesNo } from './columns.ts';
import { defineLayer, type Layer } from './layer.ts';

const shapes = {
  point: {
    geometry: 'Point',
    title: 'Features, points',
    help: 'Features of the ground that are mapped as a point.',
  },
  line: {
    geometry: 'LineString',
    title: 'Features, lines',
    help: 'Features of the ground that are mapped as a line: streams, roads, trails, power lines.',
  },
  edge: {
    geometry: 'Polygon',
    title: 'Features, areas',
    help: 'Features of the ground that are mapped as an area: water, wetlands, land of neighbours.',
  },
} as const;

function featuresAs(member: keyof typeof shapes, name: string): Layer {
  return defineLayer<Feature>({
    name,
    ...shapes[member],
    subjects: ({ stand }) =>
      [...stand.features.values()].filter(({ body }) => body !== undefined && body[member] !== undefined),
    label: ({ label }) => label,
    shape: (feature, { locator }) => {
      const shape = featureShape(feature, locator);
      if (isUnresolved(shape)) return shape;
      const { points, via, standardError } = shape;
      return { points, via, standardError };
    },
    columns: [
      text('what', 'What it is.', ({ body }) => body && words(body.what)),
      ...lengthColumns<Feature>('width', 'm', 'How wide it is.', ({ body }) => body?.width),
      count('stream_order', 'Order of the stream.', ({ body }) => body?.streamOrder),
      yesNo('perennial', 'Carries water all year.', ({ body }) => body?.perennial),
      ...areaColumns<Feature>('water', 'ha', 'Size of standing water.', ({ body }) => body?.waterArea),
      text('road_class', 'Class of the road.', ({ body }) => body?.roadClass),
      text('note', 'What else.', ({ body }) => body?.note),
      ...entryTimes<Feature>(),
    ],
  });
}

export const pointFeatures = featuresAs('point', 'feature-points');
export const lineFeatures = featuresAs('line', 'feature-lines');
export const areaFeatures = featuresAs('edge', 'feature-areas');
