// Which field of the form a sentence belongs beside. Where nothing that was typed is wrong, the plan cannot be made from what is
// recorded, and no field is named.
import { ASSUMPTION_NAMES, type FellingError } from '../../../felling/index.ts';
import {
  assumptionField,
  type FormState,
  type FormStem,
  GROUND_FIELDS,
  type STEM_FIELDS,
  stemField,
} from './form.ts';

/** A sentence, and the fields that it is about; the first is the one to go to. */
export type FormFault = Readonly<{ says: string; fields: readonly string[] }>;

export function faultOf({ field, value, message }: FellingError, state: FormState): FormFault {
  return { says: message, fields: fieldsOf(field, value, state) };
}

/** Names in the address that mean nothing here: somebody typed them, or their stem was felled since. */
export function unknownFaults({ unknown }: FormState): FormFault[] {
  return unknown.map(([name, value]) => ({
    says: `“${name}” with “${value}” is no field here: it is misspelt, or its stem is not to be felled any more. It is left out when you plan again.`,
    fields: [],
  }));
}

function fieldsOf(field: string, value: string, state: FormState): readonly string[] {
  switch (field) {
    case 'fix':
      return stemFields('aim', state, (text, stem) => text === value || isNamed(value, stem));
    case 'place':
      return stemFields('place', state, (text, stem) => text === value || isNamed(value, stem));
    case 'fixed':
      return stemFields('place', state, () => true);
    case 'before':
      return orAll('before', state, (text, stem) =>
        [stem.key, stem.label, ...text.split(/[,;]/).map((part) => part.trim())].some(
          (name) => value === name || value.split(/, /).includes(name),
        ),
      );
    case 'last':
      return stemFields('last', state, (_, stem) => isNamed(value, stem));
    case 'assume':
      return ASSUMPTION_NAMES.filter(
        (name) => value.startsWith(`${name}=`) || state.typed.get(assumptionField(name)) === value,
      ).map(assumptionField);
    default:
      return namedSo(field, state);
  }
}

function namedSo(field: string, { typed }: FormState): readonly string[] {
  const ground = GROUND_FIELDS.find((name) => name === field);
  // A slope without its direction: the field that is missing is empty.
  if (ground !== undefined) return [ground];
  const assumption = ASSUMPTION_NAMES.find((name) => name === field);
  return assumption !== undefined && typed.has(assumptionField(assumption))
    ? [assumptionField(assumption)]
    : [];
}

type Field = (typeof STEM_FIELDS)[number];
type Fits = (text: string, stem: FormStem) => boolean;

function stemFields(field: Field, { stems, typed }: FormState, fits: Fits): string[] {
  return stems.flatMap((stem) => {
    const name = stemField(field, stem);
    const text = typed.get(name);
    return text !== undefined && fits(text, stem) ? [name] : [];
  });
}

function orAll(field: Field, state: FormState, fits: Fits): string[] {
  const found = stemFields(field, state, fits);
  return found.length > 0 ? found : stemFields(field, state, () => true);
}

function isNamed(value: string, { id, key, label }: FormStem): boolean {
  return [id, key, label].some((name) => value === name || value.startsWith(`${name}=`));
}
