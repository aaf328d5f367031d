// Measures of a stem that contradict each other or the nature of trees. The values are kept; the likely fix is offered.
import type { QuantityEntered } from '../events/index.ts';
import { isLengthUnit, type PhysicsFlag, physicsFlags, type StemMeasures } from '../measure/index.ts';
import { instantOf, type LogEntry } from './entry.ts';
import type { Part, RaisedFinding } from './findings.ts';
import type { Stand, Stem } from './state.ts';
import { stumpDiameterOf } from './stem-facts.ts';

type Measured = Partial<
  Pick<Stem, 'dbh' | 'earlierDbh' | 'height' | 'merchantableHeight' | 'felling' | 'decay'>
>;

/** What contradicts itself in the measures of a stem, as they are or would be. */
export function doubtsAbout(stem: Measured, { logbook }: Stand): PhysicsFlag[] {
  const { dbh, earlierDbh, height, merchantableHeight, felling, decay } = stem;
  return physicsFlags(
    known({
      dbh,
      earlierDbh,
      height,
      merchantableHeight,
      breastHeight: logbook?.body.breastHeight,
      stumpDiameter: stumpDiameterOf({ felling, decay }),
      decayDiameter: decay?.body.diameter,
    }),
  );
}

type Length = NonNullable<StemMeasures['dbh']>;

function known(
  measures: { readonly [Name in keyof StemMeasures]?: QuantityEntered | undefined },
): StemMeasures {
  const found: { [name: string]: Length } = {};
  for (const [name, quantity] of Object.entries(measures)) {
    if (quantity === undefined || !isLengthUnit(quantity.unit)) continue;
    const value = Number(quantity.value);
    if (Number.isFinite(value)) found[name] = { value, unit: quantity.unit };
  }
  return found;
}

/** What was probably meant, as a sentence; empty where nothing can be told. */
export function likelyWords({ likely }: PhysicsFlag): string {
  if (likely === null) return '';
  const value = Number(likely.value.toPrecision(4));
  return `Did you mean ${value} ${likely.unit} (${likely.because})?`;
}

/** Judged by the measures that a stem has now: one that was put right is no finding any more. */
export function physicsFindings(stand: Stand, entries: ReadonlyMap<string, LogEntry>): RaisedFinding[] {
  const found: RaisedFinding[] = [];
  for (const stem of stand.stems.values()) {
    if (!hasSomethingToCompare(stem)) continue;
    for (const flag of doubtsAbout(stem, stand)) found.push(findingOf(stem, flag, entries));
  }
  return found;
}

/** Most stems have a DBH and nothing beside it; only one that no tree has is looked at then. */
function hasSomethingToCompare({ dbh, earlierDbh, height, merchantableHeight, decay }: Stem): boolean {
  return (
    height !== undefined ||
    earlierDbh !== undefined ||
    merchantableHeight !== undefined ||
    decay?.body.diameter !== undefined ||
    (dbh !== undefined && isThick(dbh))
  );
}

/** Whether it may be more than any tree has; a pure number that is small enough in centimetres is in inches too. */
function isThick({ value, unit }: QuantityEntered): boolean {
  return (unit !== 'in' && unit !== 'cm' && unit !== 'mm') || Number(value) > 100;
}

function findingOf(stem: Stem, flag: PhysicsFlag, entries: ReadonlyMap<string, LogEntry>): RaisedFinding {
  const last = entries.get(stem.entries.at(-1) ?? '');
  const likely = likelyWords(flag);
  const says: Part[] = [{ stem: stem.id }, `: ${flag.sentence}`];
  return {
    code: 'measures-contradict',
    entries: [...stem.entries],
    about: { stem: stem.id },
    says,
    remedy: `${likely === '' ? '' : `${likely} `}Amend the entry if it was a slip; if it was measured so, write that in a note about the stem.`,
    at: last?.happenedAt.at ?? '1970-01-01T00:00:00Z',
    recordedAt: last?.recordedAt ?? '1970-01-01T00:00:00Z',
    instant: last === undefined ? 0 : instantOf(last.happenedAt),
  };
}
