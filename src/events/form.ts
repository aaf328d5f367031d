// What a field looks like to a person: the form decides how typed text becomes the stored value,
// which flag or JSON member it is, and what the reference says about it. Pure.
import * as z from 'zod';

/** Nouns that have an identity of their own; entries refer to them by UUID, people by label. */
export const nouns = [
  'person',
  'block',
  'stake',
  'group',
  'stem',
  'sapling',
  'patch',
  'hazard',
  'damage',
  'feature',
] as const;
export type Noun = (typeof nouns)[number];

/** The part a length plays; it decides the default unit (inches for a diameter, feet for a height). */
export type LengthRole = 'diameter' | 'height' | 'distance' | 'small';

export type Form =
  | { is: 'identity'; noun: Noun }
  | { is: 'reference'; noun: Noun }
  | { is: 'entry' }
  | { is: 'text' }
  | { is: 'choice'; options: readonly string[] }
  | { is: 'yes-no' }
  | { is: 'count' }
  | { is: 'length'; role: LengthRole }
  | { is: 'area'; units: readonly string[] }
  | { is: 'number-with-unit'; units: readonly string[] }
  | { is: 'azimuth' }
  | { is: 'lean' }
  | { is: 'position' }
  | { is: 'ring'; fewest?: number }
  | { is: 'species' }
  | { is: 'time' }
  | { is: 'sealed' }
  | { is: 'data' }
  | { is: 'row'; columns: Fields }
  | { is: 'list'; of: Form };

/**
 * One field of one kind of entry. `schema` checks the stored value, `form` reads what was typed. The schema is built
 * when it is first asked for: who records one entry needs those of one kind.
 */
export type Field<S extends z.ZodType = z.ZodType> = Readonly<{
  schema: S;
  form: Form;
  help: string;
  example: string;
  required: boolean;
}>;
export type Fields = Readonly<Record<string, Field>>;

export function field<S extends z.ZodType>(
  build: () => S,
  form: Form,
  help: string,
  example: string,
): Field<S> {
  const described = once(() => build().meta({ description: help }) as S);
  return {
    get schema() {
      return described();
    },
    form,
    help,
    example,
    required: true,
  };
}

/** The same field, which may be left out. */
export function optional<S extends z.ZodType>(inner: Field<S>): Field<z.ZodOptional<S>> {
  const { form, help, example } = inner;
  const schema = once(() => inner.schema.optional());
  return {
    get schema() {
      return schema();
    },
    form,
    help,
    example,
    required: false,
  };
}

/** Several values of the same field; typed as one text with semicolons, or by giving the flag again. */
export function many<S extends z.ZodType>(inner: Field<S>): Field<z.ZodArray<S>> {
  const { form, help, example } = inner;
  return field(() => z.array(inner.schema).max(200), { is: 'list', of: form }, help, example);
}

export type Shape<F extends Fields> = { -readonly [K in keyof F]: F[K]['schema'] };

/** An object that has these fields and no others. */
export function objectOf<F extends Fields>(fields: F): z.ZodObject<Shape<F>> {
  const shape = Object.entries(fields).map(([name, one]) => [name, one.schema]);
  return z.strictObject(Object.fromEntries(shape) as Shape<F>) as z.ZodObject<Shape<F>>;
}

/**
 * A row of a small table: one value in each column. Typed as "white oak, 14.2 in, height=62 ft": values in the order of
 * the columns with commas between them, a column by its name, or an object of typed values.
 */
export function row<F extends Fields>(
  columns: F,
  help: string,
  example: string,
): Field<z.ZodObject<Shape<F>>> {
  return field(() => objectOf(columns), { is: 'row', columns }, help, example);
}

/** What is built at the first call and kept. */
export function once<T>(build: () => T): () => T {
  let built: { value: T } | undefined;
  return () => {
    built ??= { value: build() };
    return built.value;
  };
}

export function isRequired(candidate: Field): boolean {
  return candidate.required;
}
