// How a field is typed and which units it takes, in words; one saying for each form.
import { defaultLengthUnit, type Field, type Form, lengthUnits } from '../../src/events/index.ts';
import { code } from './page.ts';

const sayings: { readonly [F in Form['is']]: (form: Extract<Form, { is: F }>) => string } = {
  identity: () => 'made by the program',
  reference: ({ noun }) => `label of a ${noun}, or its UUID`,
  entry: () => 'number of an entry in the log, or its UUID',
  text: () => 'text',
  choice: ({ options }) => `one of ${options.map(code).join(', ')}`,
  'yes-no': () => 'yes or no',
  count: () => 'whole number',
  length: () => `length: number and unit, or ${code('6 ft 3 in')}`,
  area: () => 'area: number and unit',
  'number-with-unit': () => 'number and unit',
  azimuth: () => `azimuth: degrees and ${code('mag')}, ${code('true')} or ${code('grid EPSG:…')}`,
  lean: () => `offset and azimuth: ${code('6 ft at 210 mag')}`,
  position: () => '[position](#positions)',
  ring: ({ fewest = 3 }) =>
    `at least ${fewest === 2 ? 'two' : 'three'} [positions](#positions), with semicolons between them`,
  species: () => '[species](#species)',
  time: () => '[time](#times)',
  sealed: () => 'text or a file; kept apart, the entry holds only its salted hash',
  data: () => 'made by the program, or JSON',
  row: ({ columns }) =>
    `${Object.keys(columns).map(code).join(', ')}, with commas between them, or by name (${code('height=62 ft')})`,
  list: ({ of }) => `several, with semicolons between them: ${typedAs(of)}`,
};

/** How a field is typed. */
export function typedAs(form: Form): string {
  return (sayings[form.is] as (form: Form) => string)(form);
}

/** The units that a field takes, and the one that a bare number has. */
export function unitsOf({ form }: Field): string {
  const inner = form.is === 'list' ? form.of : form;
  if (inner.is === 'length') {
    const bare = (['us', 'metric'] as const).map((system) => defaultLengthUnit(system, inner.role));
    return `${lengthUnits.join(', ')} (bare: ${bare.join(' or ')})`;
  }
  if (inner.is !== 'area' && inner.is !== 'number-with-unit') return '';
  const [only] = inner.units;
  return inner.units.length === 1 ? `${only} (bare: ${only})` : inner.units.join(', ');
}
