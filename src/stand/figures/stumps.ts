// Audited stumps: what was found, which stem it is, and the DBH that the stump stands for.
import {
  dbhFromStump,
  isLengthUnit,
  isNotEnough,
  lengthIn,
  notEnough,
  type System,
} from '../../measure/index.ts';
import { stemOfStump } from '../audit-findings.ts';
import type { Folded } from '../fold.ts';
import { stemLabel } from '../labels.ts';
import type { Stem, Tallied } from '../state.ts';
import { diameterUnit } from './counted.ts';
import { dbhOf } from './dbh.ts';
import { asLength, asPositiveLength } from './length.ts';
import { type Answer, type TracedFigure, traced } from './traced.ts';

export type StumpRow = Readonly<{
  /** The stem that it is the stump of; null when the log explains it by none. */
  stem: string | null;
  label: string;
  markSeen: boolean | null;
  /** From the diameter of the stump: an estimate. */
  dbhFromStump: Answer;
  /** As measured on the standing stem; null where it never was. */
  dbhMeasured: TracedFigure | null;
  restsOn: readonly string[];
}>;

export type StumpFigures = Readonly<{ rows: readonly StumpRow[]; remarks: readonly string[] }>;

/** @param group id; all audited stumps if left out */
export function stumpFigures(
  { stand }: Folded,
  { system, group }: Readonly<{ system: System; group?: string }>,
): StumpFigures {
  const stemFor = stemOfStump(stand);
  const rows = stand.stumpsAudited
    .map((stump) => ({ stump, stem: stemFor(stump) }))
    .filter(({ stump, stem }) => group === undefined || (stump.body.group ?? stem?.group) === group)
    .map(({ stump, stem }) => rowOf(stump, stem, diameterUnit(system)));
  return {
    rows,
    remarks: [
      'A DBH from a stump is an estimate by general hardwood coefficients.',
      'Stumps without a stem, and felled stems without a stump, are findings.',
    ],
  };
}

function rowOf(
  { entry, body }: Tallied<'stump-audited'>,
  stem: Stem | undefined,
  unit: 'in' | 'cm',
): StumpRow {
  const measured =
    stem === undefined
      ? undefined
      : dbhOf({ ...stem, felling: undefined, decay: undefined, stump: undefined });
  return {
    stem: stem?.id ?? null,
    label: stem === undefined ? (body.tag ?? 'no tag') : stemLabel(stem),
    markSeen: body.markSeen ?? null,
    dbhFromStump: traced(estimated(body, unit), () => [entry]),
    dbhMeasured:
      stem === undefined || measured === undefined
        ? null
        : {
            value: lengthIn(measured.inches, 'in', unit),
            unit,
            method: 'measured on the standing stem',
            source: 'the log',
            restsOn: stem.entries,
          },
    restsOn: [entry],
  };
}

function estimated(
  { diameterInside, diameterOutside, height }: Tallied<'stump-audited'>['body'],
  unit: 'in' | 'cm',
): ReturnType<typeof dbhFromStump> {
  const [entered, bark] =
    diameterOutside === undefined
      ? ([diameterInside, 'inside'] as const)
      : ([diameterOutside, 'outside'] as const);
  const diameter = asPositiveLength(entered);
  if (diameter === undefined) return notEnough('the diameter of the stump');
  const dbh = dbhFromStump({ ...diameter, bark }, asLength(height));
  return isNotEnough(dbh) || !isLengthUnit(dbh.unit)
    ? dbh
    : { ...dbh, value: lengthIn(dbh.value, dbh.unit, unit), unit };
}
