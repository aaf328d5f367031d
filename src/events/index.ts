// events: what can be recorded. One file per noun, each kind described once: schema, fields, units,
// example, older versions. Knows measure and place; knows nothing of logs, files or clocks.
export type { AzimuthEntered, HappenedEntered, QuantityEntered, SpeciesEntered } from './fields.ts';
export { lengthUnits, slopeUnits } from './fields.ts';
export { type Field, type Fields, type Form, isRequired, type Noun } from './form.ts';
export { type Issue, type JsonObject, type JsonValue, type Kind, requiredFields } from './kind.ts';
export {
  type Body,
  type BodyReading,
  type Event,
  type EventType,
  kindOf,
  kinds,
  kindTypes,
  nearestKind,
  parseBody,
  readBody,
  upcast,
} from './kinds.ts';
export { nearest } from './nearest.ts';
export { readPosition } from './position.ts';
export { defaultLengthUnit, type Read, readAzimuth, readQuantity, type UnitSystem } from './quantity.ts';
export { bodySchema } from './schema.ts';
export { readSpecies, type SpeciesRow, speciesName } from './species.ts';
export { isZone, momentIn, readTime } from './time.ts';
export { type Taken, type Typed, type Typing, type TypingProblem, typeBody } from './typing.ts';
