// Shapes that entries are stored in, taken from the kinds in events and written nowhere else.
import { z } from '@hono/zod-openapi';
import {
  bodySchema,
  type EventType,
  type Form,
  isRequired,
  type Kind,
  kinds,
  kindTypes,
  requiredFields,
} from '../../events/index.ts';
import type { App } from '../environment.ts';

/** Schema of one field of a kind as it is stored. */
export function stored(type: EventType, field: string): z.ZodType {
  const schema = kinds[type].fields[field]?.schema;
  if (schema === undefined) throw new RangeError(`${type} has no field ${field}`);
  return schema instanceof z.ZodOptional ? (schema.unwrap() as z.ZodType) : schema;
}

/** The stored body of a kind. */
export function storedBody(type: EventType): z.ZodType {
  return kinds[type].schema;
}

type Schema = Readonly<Record<string, unknown>>;
const referTo = (name: string): Schema => ({ $ref: `#/components/schemas/${name}` });

/** An entry: one of the kinds, or one of a newer program that is kept unread. */
export const entrySchema = {
  anyOf: [...kindTypes.map((type) => referTo(`Entry.${type}`)), referTo('Envelope')],
};
/** What may be typed, by kind. */
export const draftSchema = { anyOf: kindTypes.map((type) => referTo(`Draft.${type}`)) };

/** Puts the schemas of all kinds into the document: bodies, entries and drafts. */
export function registerKinds({ openAPIRegistry }: App): void {
  const register = (name: string, schema: Schema) =>
    openAPIRegistry.registerComponent('schemas', name, schema);
  for (const type of kindTypes) {
    const kind = kinds[type];
    const { $schema: _, ...body } = bodySchema(kind);
    register(`Body.${type}`, { title: kind.title, description: kind.help, ...body });
    register(`Entry.${type}`, entryOf(kind));
    register(`Draft.${type}`, draftOf(kind));
  }
}

function entryOf({ type, v, title }: Kind): Schema {
  const properties = { type: { const: type }, v: { const: v }, body: referTo(`Body.${type}`) };
  return { title, allOf: [referTo('Envelope'), { type: 'object', properties }] };
}

/** One of several: text, or of a row an object with its columns. */
function typedItem(form: Form): Schema {
  if (form.is !== 'row') return { type: 'string' };
  const columns = Object.entries(form.columns);
  const cells = columns.map(([name, { help, example }]) => [
    name,
    { description: help, ...(example === '' ? {} : { examples: [example] }) },
  ]);
  return {
    anyOf: [
      { type: 'string' },
      {
        type: 'object',
        properties: Object.fromEntries(cells) as Schema,
        required: columns.filter(([, column]) => isRequired(column)).map(([name]) => name),
        additionalProperties: false,
      },
    ],
  };
}

/** What is typed with an amendment and is not stored under that name. */
const ofAmendments: [string, Schema][] = [
  [
    'takeOut',
    {
      description: 'Names of fields that the entry should not have.',
      examples: ['height'],
      anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string' } }],
    },
  ],
  [
    'itsReason',
    { description: 'The reason that the entry itself gives.', examples: ['dead top'], type: 'string' },
  ],
];

/** A draft has text for every field, as somebody would type it, or the value in its stored shape. */
function draftOf(kind: Kind): Schema {
  const fields: [string, Schema][] = Object.entries(kind.fields).map(([name, { help, example, form }]) => [
    name,
    {
      description: help,
      ...(example === '' ? {} : { examples: [example] }),
      anyOf: [
        { type: 'string' },
        ...(form.is === 'list' ? [{ type: 'array', items: typedItem(form.of) }] : []),
        referTo(`Body.${kind.type}/properties/${name}`),
      ],
    },
  ]);
  if (kind.type === 'entry-amended') fields.push(...ofAmendments);
  return {
    title: kind.title,
    description: kind.help,
    type: 'object',
    required: ['kind', 'fields'],
    properties: {
      kind: { const: kind.type },
      fields: {
        type: 'object',
        properties: Object.fromEntries(fields) as Schema,
        // An amendment is typed as the fields of the entry that it amends.
        ...(kind.type === 'entry-amended'
          ? { required: ['replaces', 'reason'] }
          : { required: requiredFields(kind), additionalProperties: false }),
        examples: [kind.example],
      },
      at: {
        type: 'string',
        description: 'When it happened, as typed in the zone of the logbook; now if left out.',
      },
      by: { type: 'string', description: 'Who did it: a name or id; the person at the desk if left out.' },
      answers: {
        type: 'array',
        items: { type: 'string' },
        description: 'Answers to questions that were asked.',
      },
    },
    additionalProperties: false,
  };
}
