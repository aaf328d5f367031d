// The working CRS of a logbook rests on systems that are shipped: checked wherever one is typed.
import type { JsonObject, TypingProblem } from '../events/index.ts';
import { crs, whyNotCrs } from '../place/index.ts';

/** What is wrong with the CRS in the typed body of "logbook opened", or in a new version of it. */
export function crsProblems(type: string, body: JsonObject): TypingProblem[] {
  if (type === 'entry-amended' && typeof body.type === 'string')
    return crsProblems(body.type, body.body as JsonObject);
  if (type !== 'logbook-opened' || typeof body.crs !== 'string' || crs(body.crs) !== undefined) return [];
  return [{ field: 'crs', value: body.crs, remedy: whyNotCrs(body.crs) }];
}
