// GET /api/figures/{what}: what a forester would check, each figure with unit, method, source and its entries.
import { createRoute, z } from '@hono/zod-openapi';
import { type FiguresTyped, readFigures } from '../../record/index.ts';
import { aimsJson, readAims } from '../../reports/index.ts';
import { figureKinds, figuresJson } from '../../stand/index.ts';
import { json, unchanged, wanted } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { momentQuery, readMoment } from '../moment.ts';
import { badParameter } from '../problems.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';

const typed = (description: string, example: string) =>
  z.string().optional().openapi({ description, example });

const query = momentQuery.extend({
  by: typed('stand: rows by class, species or group; aims: of which person.', 'class'),
  group: typed('Only this group, by label or id; the one that decay is compared for.', 'G1'),
  block: typed('Only this block, by name or id.', 'North cove'),
  since: typed('What was cut or lost before that time was not there.', '2026-01-01'),
  floor: typed('Smallest DBH that is counted; the tally floor of the block if left out.', '5 in'),
  classes: typed('stand: lower limits of the size classes.', '5, 10, 16 in'),
  around: typed('stand and volume: only the zone round a stake or stem.', 'stake A'),
  radius: typed('With around: how far the zone reaches.', '60 ft'),
  units: typed('us or metric; the units of the logbook if left out.', 'us'),
  rule: typed(
    'volume, log and butt: doyle, scribner, international-quarter-inch; volume also cubic-feet, cubic-metres; log and butt also scribner-decimal-c, international-table, vermont; log also smalian, huber, newton, cone, neiloid.',
    'doyle',
  ),
  'form-class': typed('volume in board feet: Girard form class in percent.', '78'),
  form: typed('volume of solid wood: a form factor, or paraboloid, cone, neiloid.', '0.45'),
  equation: typed('volume of solid wood: honer, by the species of each stem.', 'honer'),
  stem: typed('butt: which stem, by tag or id.', 'A12'),
  'small-end': typed(
    'log and butt: diameter inside bark; two readings at right angles with a comma.',
    '14.2 in, 13.6 in',
  ),
  middle: typed('log: diameter half way along, for huber and newton.', '14 in'),
  'large-end': typed('log and butt: diameter at the other end; gives the taper of a long log.', '16 in'),
  length: typed('log: its whole length; butt: the length that is scaled.', '16 ft'),
  trim: typed('log and butt: taken off the length first; 4 in for a log, none for a butt.', '4 in'),
  taper: typed('log and butt: of a log that is scaled in parts, in in/ft or cm/m.', '0.125 in/ft'),
  half: typed('log: down or up, where an exact half inch goes; down if left out.', 'down'),
  defects: typed('log: what is wrong with it.', 'rot 6 x 5 in 4 ft; sweep 4 in'),
  product: typed('butt: money by the recorded price list, for this product.', 'sawlog'),
  grade: typed('butt: with product, the grade of the log with its cull.', '3'),
  'grade-jump-butted': typed('butt: with product, the grade without its butt.', '1'),
  'price-with-cull': typed('butt: money per thousand board feet of the log as it is.', '300 USD'),
  'price-jump-butted': typed('butt: the same of the log without its butt.', '450 USD'),
  stems: typed('value: before, removed, lost or left; removed if left out.', 'removed'),
  buyers: typed('value and butt: class of buyers, where there are lists of several.', 'mill delivered'),
  'stocked-from': typed('regeneration: how many young trees make a plot stocked; 1 if left out.', '1'),
  legs: typed(
    'traverse: azimuth and distance of each leg.',
    '45 true 200 ft; 135 true 150 ft; 225 true 200 ft; 315 true 151 ft',
  ),
  adjust: typed('traverse: yes to adjust by the compass rule.', 'yes'),
  'since-size': typed('moved: how many entries the log held then.', '120'),
  point: typed('zones: which place; all blocks if left out.', '35.7121, -81.6834'),
  zone: typed('zones: a zone as somebody wrote it, to be explained.', '17S'),
  period: typed('openings: years of the rolling period; 10 if left out.', '10 years'),
  feature: typed('buffers: label of a feature, or what it is; all if left out.', 'stream'),
  width: typed('buffers: how wide the strip is.', '50 ft'),
  'per-percent': typed('buffers: how much wider for each percent of slope.', '2 ft'),
  above: typed('buffers: from which slope on it is wider.', '10 %'),
  along: typed('buffers: level or slope, how the width is measured; level if left out.', 'slope'),
  limit: typed('damage: from which area on a wound is large; 100 in² if left out.', '100 in2'),
});

/** Lays against aims are no figure of the stand alone: the felling model has a part in them. */
const whats = [...figureKinds, 'aims'] as const;

const figures = z
  .object({
    what: z.enum(whats),
    label: z.string().optional(),
    figures: z.record(z.string(), z.unknown()),
  })
  .openapi('Figures', {
    description:
      'A figure has value, unit, method, source and restsOn (numbers of entries); one that cannot be given says what is missing in notEnough. Values are not rounded.',
  });

const route = createRoute({
  method: 'get',
  path: '/api/figures/{what}',
  summary: 'Figures of the stand',
  description:
    'Stand table, standing volume, decay of a group against the others, one log scaled, a butt log with rot in it, sample plots, regeneration visit by visit, damage to leave trees, a traverse, what moved, zones that fit, and lays against aims.',
  request: { params: z.object({ what: z.enum(whats) }), query },
  responses: {
    200: { description: 'The figures.', content: { 'application/json': { schema: figures } } },
    304: { description: 'Nothing was appended since.' },
    ...problemAnswers('bad-parameter', 'not-acceptable'),
  },
});

export function addFigures(app: App, room: Room): void {
  addRoute(app, route, async (context) => {
    wanted(context, ['application/json']);
    const { what } = context.req.valid('param');
    const { at, 'known-at': knownAt, ...asked } = context.req.valid('query');
    const moment = await readMoment(room, { at, 'known-at': knownAt });
    return room.reading.look(moment, ({ folded, head, names }) => {
      if (what === 'aims') {
        const found = readAims(folded, names, inWords(asked));
        if (!found.ok) throw badParameter({ ...found, field: parameterOf(found.field) });
        return (
          unchanged(context, head, room.program) ?? json(context, aimsJson(found.figures, folded, names))
        );
      }
      const read = readFigures(what, folded, inWords(asked), new Date(room.now()).toISOString());
      if (!read.ok) {
        const { field, value, remedy } = read;
        throw badParameter({ field: parameterOf(field), value, remedy });
      }
      return unchanged(context, head, room.program) ?? json(context, figuresJson(read.value, folded));
    });
  });
}

/** `form-class` as `formClass`. */
function inWords(asked: Readonly<Record<string, string | undefined>>): FiguresTyped {
  const entries = Object.entries(asked).map(([name, text]) => [
    name.replaceAll(/-[a-z]/g, (part) => part.slice(1).toUpperCase()),
    text,
  ]);
  return Object.fromEntries(entries) as FiguresTyped;
}

function parameterOf(field: string): string {
  return field.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}
