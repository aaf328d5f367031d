/**
 * The proportion of a log that a defect takes, whatever the log rule.
 *
 * All five formulas are from memory (Grosenbaugh 1952, Shortcuts for cruisers and scalers, Occasional Paper 126,
 * p. 14): they stand to be checked against that page. Lengths in feet, diameters and departures in inches.
 */
import type { Figure, NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';

/** A share of the gross volume, 0 to 1. */
export type Cull = Figure & Readonly<{ unit: 'share of gross' }>;

const SOURCE = 'from memory: Grosenbaugh 1952, Occasional Paper 126, p. 14';

function cull(method: string, share: number): Cull {
  return { value: Math.min(1, Math.max(0, share)), unit: 'share of gross', method, source: SOURCE };
}

/** How much of the log's length is affected, in feet. */
export type Along = Readonly<{ affected: number; length: number }>;

function wrongAlong({ affected, length }: Along): NotEnough | undefined {
  return outOfRange(
    { what: 'length of the log', value: length, unit: 'ft', least: Number.MIN_VALUE },
    { what: 'affected length', value: affected, unit: 'ft', least: 0 },
  );
}

/** Share of the length, never more than all of it. */
function shareAlong({ affected, length }: Along): number {
  return Math.min(1, affected / length);
}

/** The whole section is lost over a length: `l / L`. From memory. */
export function lengthCut(along: Along): Cull | NotEnough {
  return wrongAlong(along) ?? cull('length cut, l / L', shareAlong(along));
}

/** A sector (pie cut) of the section is lost over a length: `l / L · θ / 360`. θ in degrees, 0 to 360. From memory. */
export function sectorCut(along: Along, degrees: number): Cull | NotEnough {
  const wrong =
    wrongAlong(along) ?? outOfRange({ what: 'sector', value: degrees, unit: '°', least: 0, most: 360 });
  return wrong ?? cull('sector, l / L · θ / 360', (shareAlong(along) * degrees) / 360);
}

/** Sweep: `(s − 2) / d`, s the greatest departure of the whole log from straight, in; 0 up to 2 in. From memory. */
export function sweep(departure: number, smallEnd: number): Cull | NotEnough {
  const wrong = outOfRange(
    { what: 'departure', value: departure, unit: 'in', least: 0 },
    { what: 'small-end diameter', value: smallEnd, unit: 'in', least: Number.MIN_VALUE },
  );
  return wrong ?? cull('sweep, (s − 2) / d', (departure - 2) / smallEnd);
}

/** Crook: `l / L · c / d`, c the deflection over the affected length, in. From memory. */
export function crook(along: Along, deflection: number, smallEnd: number): Cull | NotEnough {
  const wrong =
    wrongAlong(along) ??
    outOfRange(
      { what: 'deflection', value: deflection, unit: 'in', least: 0 },
      { what: 'small-end diameter', value: smallEnd, unit: 'in', least: Number.MIN_VALUE },
    );
  return wrong ?? cull('crook, l / L · c / d', shareAlong(along) * Math.min(1, deflection / smallEnd));
}

/** Two diameters of a defect in its average section, in. */
export type Core = Readonly<{ across: number; other: number }>;

/**
 * Interior defect, an ellipse in the average section: `(a + 1)(b + 1) / (d − 1)² · l / L`. A core wider than the
 * small end less 2 in leaves no boards beside it: the affected length is lost whole. No core, no cull. From memory.
 */
export function interiorDefect(along: Along, core: Core, smallEnd: number): Cull | NotEnough {
  const wrong =
    wrongAlong(along) ??
    outOfRange(
      { what: 'diameter of the defect', value: core.across, unit: 'in', least: 0 },
      { what: 'other diameter of the defect', value: core.other, unit: 'in', least: 0 },
      { what: 'small-end diameter', value: smallEnd, unit: 'in', least: Number.MIN_VALUE },
    );
  if (wrong !== undefined) return wrong;
  const share = shareAlong(along);
  if (core.across === 0 || core.other === 0) return cull('interior defect, none', 0);
  if (Math.max(core.across, core.other) > smallEnd - 2) {
    return cull('interior defect wider than the small end less 2 in, l / L', share);
  }
  const section = ((core.across + 1) * (core.other + 1)) / (smallEnd - 1) ** 2;
  return cull('interior defect, (a + 1)(b + 1) / (d − 1)² · l / L', Math.min(1, section) * share);
}
