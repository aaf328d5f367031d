// Who may import whom: docs/architecture.md draws it, this file enforces it (npm run check:imports).
// Each room lists the rooms it may look into; everything else is an error.
const swc = require('@swc/core');

// The parser takes angle brackets in .tsx for types unless it is told.
const { parseFileSync } = swc;
swc.parseFileSync = (file, options) => parseFileSync(file, { ...options, tsx: file.endsWith('.tsx') });

const mayImport = {
  measure: [],
  place: ['measure'],
  events: ['measure', 'place'],
  'log/entry': [],
  'log/store': ['log/entry'],
  stand: ['measure', 'place', 'events', 'log/entry'],
  record: ['measure', 'place', 'events', 'log/entry', 'log/store', 'stand'],
  felling: ['measure', 'place', 'events', 'stand'],
  layers: ['measure', 'place', 'events', 'log/entry', 'stand'],
  rules: ['measure', 'place', 'events', 'log/entry', 'stand'],
  reports: ['measure', 'place', 'events', 'log/entry', 'stand', 'felling', 'layers', 'rules'],
  server: [
    'measure',
    'place',
    'events',
    'log/entry',
    'log/store',
    'stand',
    'record',
    'felling',
    'layers',
    'rules',
    'reports',
  ],
  web: ['measure', 'place', 'events', 'log/entry', 'stand', 'felling'],
};
const pure = '^src/(measure|place|events|log/entry|stand|felling|layers|rules)/';

const rooms = Object.entries(mayImport).map(([room, friends]) => ({
  name: `${room.replace('/', '-')}-looks-only-into-its-neighbours`,
  severity: 'error',
  from: { path: `^src/${room}/` },
  to: { path: '^(src|cli)/', pathNot: [room, ...friends].map((name) => `^src/${name}/`) },
}));

const doors = {
  name: 'a-room-is-entered-by-its-index',
  comment: "A folder's index.ts is its only door.",
  severity: 'error',
  from: { path: '^(src/(?:log/)?[^/]+|cli)/' },
  to: { path: '^src/(?:log/)?[^/]+/.+', pathNot: ['^src/(?:log/)?[^/]+/index\\.ts$', '^$1/'] },
};

/** Within the field page: the screens know of the engine its port alone, and the engine knows no screens. */
const fieldPage = [
  {
    name: 'screens-see-the-port-of-the-engine',
    severity: 'error',
    from: { path: '^src/web/field/(screens|text|look)/' },
    to: { path: '^src/web/field/(engine|worker)/', pathNot: '^src/web/field/engine/port\\.ts$' },
  },
  {
    name: 'engine-knows-no-screens',
    severity: 'error',
    from: { path: '^src/web/field/engine/' },
    to: { path: '^src/web/field/(screens|look|worker)/' },
  },
  {
    name: 'the-felling-plan-is-loaded-later',
    comment: 'An ordinary import from outside would put it into what the page loads first.',
    severity: 'error',
    from: { path: '^src/web/field/', pathNot: '^src/web/field/(screens/plan|planner)/' },
    to: {
      path: '^src/web/field/(screens/plan|planner)/',
      dependencyTypesNot: ['dynamic-import', 'type-only', 'type-import'],
    },
  },
  {
    name: 'worker-knows-only-itself',
    severity: 'error',
    from: { path: '^src/web/field/worker/' },
    to: { pathNot: '^src/web/field/worker/' },
  },
];

module.exports = {
  forbidden: [
    ...rooms,
    ...fieldPage,
    doors,
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'pure-rooms-know-no-node',
      severity: 'error',
      from: { path: pure },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.js', '.json'],
      conditionNames: ['import', 'node', 'default', 'types'],
      exportsFields: ['exports'],
    },
  },
};
