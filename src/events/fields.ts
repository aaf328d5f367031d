// The fields that entries are made of: quantities as entered, azimuths, positions, references, species.
// Each builder gives the zod schema of the stored value together with the form that reads typed text.
import * as z from 'zod';
import type { Azimuth, PositionEntered, Quantity } from '../place/index.ts';
import { type Field, field, type LengthRole, type Noun, once } from './form.ts';

/** In lower case, as the envelope has them: the same thing must not have two ids. */
export const uuid = once(() =>
  z
    .string()
    .regex(
      /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
      'a UUID in lower case',
    )
    .meta({ format: 'uuid' }),
);
/** Decimal numbers are kept as text, so that 14.0 stays 14.0. */
const decimal = once(() => z.string().regex(/^-?\d{1,12}(\.\d{1,12})?$/, 'a decimal number such as 14.0'));
const shortText = once(() => z.string().min(1).max(200));

/** A quantity as entered: what was written, its decimal value, and the unit that applies. */
function quantity<const U extends readonly [string, ...string[]]>(units: U) {
  return z.strictObject({ text: z.string().max(60), value: decimal(), unit: z.enum(units) });
}

export const lengthUnits = ['in', 'ft', 'us-ft', 'yd', 'ch', 'mm', 'cm', 'm'] as const;
const areaUnits = ['ft2', 'ac', 'm2', 'ha'] as const;
const woundUnits = ['in2', 'cm2', 'ft2', 'm2'] as const;
export const slopeUnits = ['%', 'deg'] as const;

const lengthSchema = once(() => quantity(lengthUnits));
const slopeSchema = once(() => quantity(slopeUnits));
const epsg = once(() => z.string().regex(/^EPSG:\d{4,6}$/, 'an EPSG code such as EPSG:2264'));
const sha256Schema = once(() => z.string().regex(/^[0-9a-f]{64}$/));

// place owns these types; the schemas check them at the edge.
const azimuthSchema = once(
  () =>
    z
      .strictObject({
        text: z.string().max(60),
        value: decimal(),
        reference: z.enum(['mag', 'true', 'grid']),
        crs: epsg().optional(),
      })
      .refine((azimuth) => Number(azimuth.value) >= 0 && Number(azimuth.value) <= 360, {
        message: 'an azimuth from 0 to 360 degrees',
      })
      .refine((azimuth) => (azimuth.reference === 'grid') === (azimuth.crs !== undefined), {
        message: 'a grid azimuth names its CRS (135 grid EPSG:2264); magnetic and true azimuths have none',
      }) as unknown as z.ZodType<Azimuth>,
);

const within = (limit: number) =>
  decimal().refine((text) => Math.abs(Number(text)) <= limit, {
    message: `a number from -${limit} to ${limit}`,
  });

/** What a tape was held to. */
const anchorSchema = once(() =>
  z.union([z.strictObject({ stake: uuid() }), z.strictObject({ stem: uuid() })]),
);
const positionSchema = once(
  () =>
    z.discriminatedUnion('how', [
      z.strictObject({
        how: z.literal('fix'),
        lat: within(90),
        lon: within(180),
        accuracy: lengthSchema().optional(),
        fixedAt: z.string().max(40).optional(),
        source: z.string().max(60).optional(),
      }),
      z.strictObject({
        how: z.literal('grid'),
        crs: epsg(),
        easting: decimal(),
        northing: decimal(),
        accuracy: lengthSchema().optional(),
      }),
      z.strictObject({
        how: z.literal('average'),
        fixes: z
          .array(z.strictObject({ lat: within(90), lon: within(180), accuracy: lengthSchema().optional() }))
          .min(2)
          .max(500),
      }),
      z.strictObject({
        how: z.literal('distances'),
        taped: z
          .array(
            z.strictObject({
              from: anchorSchema(),
              distance: lengthSchema(),
              slope: slopeSchema().optional(),
            }),
          )
          .min(2)
          .max(20),
        side: z.enum(['left', 'right']).optional(),
      }),
      z.strictObject({
        how: z.literal('offset'),
        from: anchorSchema(),
        azimuth: azimuthSchema(),
        distance: lengthSchema(),
        slope: slopeSchema().optional(),
      }),
      z.strictObject({ how: z.literal('local'), block: uuid(), x: lengthSchema(), y: lengthSchema() }),
      z.strictObject({ how: z.literal('unknown') }),
    ]) as unknown as z.ZodType<PositionEntered>,
);
const ringSchema = once(() => z.array(positionSchema()).min(3).max(2000));
const pathSchema = once(() => z.array(positionSchema()).min(2).max(2000));

const leanSchema = once(() => z.strictObject({ offset: lengthSchema(), azimuth: azimuthSchema() }));
/** A species as entered: the text, the code list, and the code in it ("us" is the shipped list). */
const speciesSchema = once(() =>
  z.strictObject({
    text: shortText(),
    list: z.string().regex(/^[a-z0-9-]{1,40}$/),
    code: z.string().min(1).max(40),
  }),
);
const happenedSchema = once(() =>
  z.strictObject({
    at: z
      .string()
      .regex(
        /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,9})?(Z|[+-]\d{2}:\d{2})$/,
        'RFC 3339 with offset, such as 2026-03-14T09:30:00-05:00',
      )
      .refine(isInCalendar, { message: 'a day and time that the calendar has' }),
    precision: z.enum(['instant', 'minute', 'day']),
  }),
);

/** The identity that this entry gives to something new. Made by the program, never typed. */
export const identity = (noun: Noun) =>
  field(uuid, { is: 'identity', noun }, `Identity of the new ${noun} (made for you).`, '');
/** Which one: typed as its tag or label, stored as its UUID. */
export const reference = (noun: Noun, help: string, example: string) =>
  field(uuid, { is: 'reference', noun }, help, example);
/** Which entry: its number in the log or its id. */
export const entryReference = (help: string) => field(uuid, { is: 'entry' }, help, '17');
export const text = (help: string, example: string) =>
  field(() => z.string().min(1).max(4000), { is: 'text' }, help, example);
export const label = (help: string, example: string) => field(shortText, { is: 'text' }, help, example);
export const choice = <const T extends readonly [string, ...string[]]>(
  options: T,
  help: string,
): Field<z.ZodEnum<{ [K in T[number]]: K }>> =>
  field(() => z.enum(options), { is: 'choice', options }, help, options[0]);
export const yesNo = (help: string) => field(() => z.boolean(), { is: 'yes-no' }, help, 'yes');
export const count = (help: string, example: string) =>
  field(() => z.number().int().min(0).max(1_000_000), { is: 'count' }, help, example);
export const length = (role: LengthRole, help: string, example: string) =>
  field(lengthSchema, { is: 'length', role }, help, example);
export const area = (help: string, example: string) =>
  field(() => quantity(areaUnits), { is: 'area', units: areaUnits }, help, example);
export const woundArea = (help: string, example: string) =>
  field(() => quantity(woundUnits), { is: 'area', units: woundUnits }, help, example);
export const basalAreaDensity = (help: string, example: string) =>
  numberWithUnit(['ft2/ac', 'm2/ha'], help, example);
export const stemDensity = (help: string, example: string) => numberWithUnit(['/ac', '/ha'], help, example);
export const percent = (help: string, example: string) => numberWithUnit(['%'], help, example);
export const timeSpan = (help: string, example: string) => numberWithUnit(['s', 'min', 'h'], help, example);
export const speed = (help: string, example: string) =>
  numberWithUnit(['mph', 'm/s', 'km/h', 'kn'], help, example);
export const angle = (help: string, example: string) => numberWithUnit(['deg'], help, example);
export const azimuth = (help: string, example: string) =>
  field(azimuthSchema, { is: 'azimuth' }, help, example);
/** A grade of the ground, as a percentage or an angle. */
export const slope = (help: string, example: string) => numberWithUnit(slopeUnits, help, example);
/** A plain decimal number, such as a price; the currency stands in a field of its own. */
export const decimalNumber = (help: string, example: string) => field(decimal, { is: 'text' }, help, example);
export const lean = (help: string, example: string) => field(leanSchema, { is: 'lean' }, help, example);
export const position = (help: string) =>
  field(positionSchema, { is: 'position' }, help, '135 mag, 42 ft from stake A');
export const ring = (help: string) =>
  field(
    ringSchema,
    { is: 'ring' },
    help,
    'EPSG:2264 1209000,741000; EPSG:2264 1209090,741000; EPSG:2264 1209090,741080',
  );
/** A line on the ground, point by point. */
export const path = (help: string) =>
  field(pathSchema, { is: 'ring', fewest: 2 }, help, 'EPSG:2264 1209000,741000; EPSG:2264 1209090,741040');
export const species = (help: string, example = 'white oak') =>
  field(speciesSchema, { is: 'species' }, help, example);
export const happened = (help: string) => field(happenedSchema, { is: 'time' }, help, '2026-03-14 09:30');
/** Personal data or a photo: the entry holds only the hash of salt and bytes; the bytes can be erased. */
export const sealed = (help: string, example: string) => field(sha256Schema, { is: 'sealed' }, help, example);
export const sha256 = (help: string) =>
  field(
    sha256Schema,
    { is: 'data' },
    help,
    'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  );
export const crsCode = (help: string, example: string) => field(epsg, { is: 'text' }, help, example);
export const data = <S extends z.ZodType>(schema: () => S, help: string) =>
  field(schema, { is: 'data' }, help, '');

/** Some engines take 31 February for 3 March and others for no date: the order of entries must not depend on it. */
function isInCalendar(at: string): boolean {
  const day = at.slice(0, 10);
  return !Number.isNaN(Date.parse(at)) && new Date(day).toISOString().startsWith(day);
}

function numberWithUnit<const U extends readonly [string, ...string[]]>(
  units: U,
  help: string,
  example: string,
) {
  return field(() => quantity(units), { is: 'number-with-unit', units }, help, example);
}

export type QuantityEntered = Quantity;
export type AzimuthEntered = Azimuth;
export type SpeciesEntered = z.infer<ReturnType<typeof speciesSchema>>;
export type HappenedEntered = z.infer<ReturnType<typeof happenedSchema>>;
