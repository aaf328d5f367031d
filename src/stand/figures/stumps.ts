// Audited stumps: what was found, which stem it is, and the DBH that the stump stands for.
import { dbhFromStump, type Figure, isLengthUnit, type NotEnough, notEnough } from '../../measure/index.ts';
import { stemOfStump } from '../audit-findings.ts';
import type { Folded } from '../fold.ts';
import { stemLabel } from '../labels.ts';
import type { Stem, Tallied } from '../state.ts';
import { dbhOf } from './dbh.ts';

export type StumpRow = Readonly<{
  /** The stem that it is the stump of; null when the log explains it by none. */
  stem: string | null;
  label: string;
  markSeen: boolean | null;
  /** From the diameter of the stump: an estimate. */
  dbhFromStump: Figure | NotEnough;
  /** As measured on the standing stem, inches; null where it never was. */
  dbhMeasured: number | null;
  restsOn: readonly string[];
}>;

export type StumpFigures = Readonly<{ rows: readonly StumpRow[]; remarks: readonly string[] }>;

/** @param group id; all audited stumps if left out */
export function stumpFigures({ stand }: Folded, group?: string): StumpFigures {
  const stemFor = stemOfStump(stand);
  const rows = stand.stumpsAudited
    .map((stump) => ({ stump, stem: stemFor(stump) }))
    .filter(({ stump, stem }) => group === undefined || (stump.body.group ?? stem?.group) === group)
    .map(({ stump, stem }) => rowOf(stump, stem));
  return {
    rows,
    remarks: [
      'A DBH from a stump is an estimate by general hardwood coefficients.',
      'Stumps without a stem, and felled stems without a stump, are findings.',
    ],
  };
}

function rowOf({ entry, body }: Tallied<'stump-audited'>, stem: Stem | undefined): StumpRow {
  const measured =
    stem === undefined
      ? undefined
      : dbhOf({ ...stem, felling: undefined, decay: undefined, stump: undefined });
  return {
    stem: stem?.id ?? null,
    label: stem === undefined ? (body.tag ?? 'no tag') : stemLabel(stem),
    markSeen: body.markSeen ?? null,
    dbhFromStump: estimated(body),
    dbhMeasured: measured?.inches ?? null,
    restsOn: [entry],
  };
}

function estimated({
  diameterInside,
  diameterOutside,
  height,
}: Tallied<'stump-audited'>['body']): Figure | NotEnough {
  const [diameter, bark] =
    diameterOutside === undefined
      ? ([diameterInside, 'inside'] as const)
      : ([diameterOutside, 'outside'] as const);
  const value = Number(diameter?.value);
  if (diameter === undefined || !isLengthUnit(diameter.unit) || !(value > 0))
    return notEnough('the diameter of the stump');
  return dbhFromStump(
    { value, unit: diameter.unit, bark },
    height !== undefined && isLengthUnit(height.unit)
      ? { value: Number(height.value), unit: height.unit }
      : undefined,
  );
}
