// What the form of the plan page says, as it stands in the address: one name for each field, so that an address can be kept and
// comes back to the same plan. What is empty or usual is left out of it.
import {
  ASSUMPTION_NAMES,
  ASSUMPTIONS,
  type AssumptionName,
  type PlanTyped,
  type RecordedDefault,
} from '../../../felling/index.ts';
import { findThing, type Stand, type Stem, stemLabel } from '../../../stand/index.ts';

/** A stem that is to be felled, by what it is called in the address. */
export type FormStem = Readonly<{ id: string; key: string; label: string }>;

export const STEM_FIELDS = ['aim', 'place', 'before', 'last'] as const;
export const GROUND_FIELDS = [
  'slope',
  'downhill',
  'wind',
  'people',
  'notch',
  'wedges',
  'winch',
  'measure-next',
  'by',
] as const;

export type FormState = Readonly<{
  group: string;
  stems: readonly FormStem[];
  /** What was typed, by the name of the field. */
  typed: ReadonlyMap<string, string>;
  /** What was recorded for who fells by the plan: what is usual for them. */
  own: readonly RecordedDefault[];
  /** Names in the address that are no field here, with what they say. */
  unknown: readonly (readonly [name: string, value: string])[];
}>;

/** Reads an address. A stem that was felled since is no field any more. */
export function readForm(
  group: string,
  standing: readonly Stem[],
  stand: Stand,
  { query, own }: Readonly<{ query: URLSearchParams; own: readonly RecordedDefault[] }>,
): FormState {
  const stems = standing.map((stem) => formStem(stem, stand));
  const names = new Set(fieldNames(stems));
  const given = [...query].map(([name, value]) => [name, value.trim()] as const);
  return {
    group,
    stems,
    own,
    typed: new Map(given.filter(([name, value]) => names.has(name) && !isUsual(name, value, own))),
    unknown: given.filter(([name, value]) => !names.has(name) && value !== ''),
  };
}

function formStem(stem: Stem, stand: Stand): FormStem {
  const label = stemLabel(stem);
  const found = findThing(stand, 'stem', label, new Map());
  const isPlain = /^[^,;=]+$/.test(label) && found.ok && found.value === stem.id;
  return { id: stem.id, label, key: isPlain ? label : stem.id };
}

export function stemField(field: (typeof STEM_FIELDS)[number], { key }: Pick<FormStem, 'key'>): string {
  return `${field}.${key}`;
}

export function assumptionField(name: AssumptionName): string {
  return `assume.${name}`;
}

function fieldNames(stems: readonly FormStem[]): string[] {
  return [
    ...stems.flatMap((stem) => STEM_FIELDS.map((field) => stemField(field, stem))),
    ...GROUND_FIELDS,
    ...ASSUMPTION_NAMES.map(assumptionField),
  ];
}

/** What a number of the model is where nothing is typed. */
export function usualValue(name: AssumptionName, own: readonly RecordedDefault[]): number {
  return own.find((one) => one.name === name)?.value ?? ASSUMPTIONS[name].value;
}

/** Whether a field says nothing but what holds without it. */
function isUsual(name: string, value: string, own: readonly RecordedDefault[]): boolean {
  const assumption = ASSUMPTION_NAMES.find((one) => assumptionField(one) === name);
  if (assumption !== undefined && value !== '') return Number(value) === usualValue(assumption, own);
  return value === '' || (name === 'notch' && value === 'open face');
}

/** The address of the page that says the same, in one order; with fields put in, or taken out by an empty value. */
export function addressOf(
  { group, stems, typed }: FormState,
  { part = '', change = {} }: Readonly<{ part?: string; change?: Readonly<Record<string, string>> }> = {},
): string {
  const values = new Map([...typed, ...Object.entries(change)]);
  const query = new URLSearchParams();
  for (const name of fieldNames(stems)) {
    const value = values.get(name);
    if (value !== undefined && value !== '') query.append(name, value);
  }
  return `/groups/${encodeURIComponent(group)}/plan${part}${query.size === 0 ? '' : `?${query}`}`;
}

/** What is asked of a plan, as it is typed elsewhere. */
export function typedOf({ stems, typed }: FormState): PlanTyped {
  const of = (name: string): string | undefined => typed.get(name);
  const joined = (texts: readonly string[]): string | undefined =>
    texts.length === 0 ? undefined : texts.join('; ');
  const each = (field: (typeof STEM_FIELDS)[number], words: (key: string, text: string) => string[]) =>
    joined(
      stems.flatMap((stem) => {
        const text = of(stemField(field, stem));
        return text === undefined ? [] : words(stem.key, text);
      }),
    );
  return {
    fix: each('aim', (key, text) => [`${key}=${text}`]),
    place: each('place', (key, text) => [`${key}=${text}`]),
    before: each('before', (key, text) => text.split(/[,;]/).map((other) => `${key}=${other.trim()}`)),
    last: each('last', (key) => [key]),
    slope: of('slope'),
    downhill: of('downhill'),
    wind: of('wind'),
    people: of('people'),
    notch: of('notch'),
    wedges: of('wedges') === 'yes',
    winch: of('winch') === 'yes',
    measureNext: of('measure-next') === 'yes',
    assume: joined(
      ASSUMPTION_NAMES.flatMap((name) => {
        const text = of(assumptionField(name));
        return text === undefined ? [] : [`${name}=${text}`];
      }),
    ),
  };
}

/** The same as the query of the addresses for programs. */
export function apiQuery(state: FormState): URLSearchParams {
  const query = new URLSearchParams();
  const by = state.typed.get('by');
  if (by !== undefined) query.append('by', by);
  for (const [key, value] of Object.entries(typedOf(state))) {
    const name = key === 'measureNext' ? 'measure-next' : key;
    if (value === true) query.append(name, 'yes');
    else if (typeof value === 'string') query.append(name, value);
  }
  return query;
}
