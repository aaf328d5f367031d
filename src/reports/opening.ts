// The opening of a group: its state, its closings, and its area with the method that gave it.
import { isUnresolved } from '../place/index.ts';
import {
  type Group,
  type Locator,
  type OpeningArea,
  openingArea,
  openingMeasures,
  withUnit,
} from '../stand/index.ts';
import { type Context, known, missing, recordedOr, term } from './context.ts';
import type { Term } from './model.ts';

export function openingTerms(context: Context, group: Group, locator: Locator): Term[] {
  const closings = group.closings.map((closing) => {
    const { slash, note, edge } = closing.body;
    const said = [
      context.time(closing.at),
      slash === undefined ? 'slash not recorded' : `slash ${slash}`,
      edge === undefined ? 'edge not walked' : `edge walked, ${edge.length} corners`,
      note,
    ];
    return term('Closed', known(said.filter(Boolean).join(', '), context.numbers([closing.entry])));
  });
  const planned = group.plannedArea && withUnit(group.plannedArea);
  return [
    term('State of the opening', known(group.opening)),
    ...closings,
    term('Planned area', recordedOr(planned, context.numbers(planningEntries(context, group)))),
    ...areaTerms(context, group, locator),
    ...otherWays(context, group, locator),
  ];
}

/** The last entry that gave the group a planned area. */
function planningEntries(context: Context, group: Group): string[] {
  return group.entries
    .filter((id) => {
      const event = context.happening(id)?.event;
      return (
        (event?.type === 'group-laid-out' || event?.type === 'group-widened') &&
        event.body.plannedArea !== undefined
      );
    })
    .slice(-1);
}

function areaTerms(context: Context, group: Group, locator: Locator): Term[] {
  const name = group.opening === 'closed' ? 'Area as cut' : 'Area as cut so far';
  const area = openingArea(group, context.folded, locator);
  if (isUnresolved(area)) return [term(name, missing(area.why))];
  const entries = context.numbers(area.entries);
  return [
    term(name, known(`${figure(context, area.planar)}, by the ${area.method}, ${errorWords(area)}`, entries)),
    term('How it was measured', known([capital(area.basis), ...area.remarks].map(sentence).join(' '))),
    term(
      'Check of the area',
      known(
        `computed in ${area.crs}, on its grid; on the ellipsoid ${figure(context, area.geodesic)}, difference ${area.differencePercent.toFixed(3)} %`,
      ),
    ),
  ];
}

/** What other ways of measuring gave, where there are any: each area is spoken of with its way. */
function otherWays(context: Context, group: Group, locator: Locator): Term[] {
  if (group.measured.length === 0) return [];
  const measures = openingMeasures(group, context.folded, locator).filter((measure) => 'area' in measure);
  return measures
    .slice(1)
    .map(({ method, area, entries }) =>
      term(`By the ${method}`, known(figure(context, area), context.numbers(entries))),
    );
}

/** Two standard errors, as a share: areas are spoken of in percent. */
function errorWords({ planar, standardError }: Pick<OpeningArea, 'planar' | 'standardError'>): string {
  return `give or take ${((200 * standardError) / planar.m2).toFixed(0)} % (two standard errors)`;
}

function figure(context: Context, { ac, ha, m2 }: OpeningArea['planar']): string {
  const acres = `${ac.toFixed(3)} ac`;
  const metric = `${ha.toFixed(4)} ha (${m2.toFixed(0)} m²)`;
  const us = context.folded.stand.logbook?.body.units === 'us';
  return us ? `${acres} = ${metric}` : `${metric} = ${acres}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
