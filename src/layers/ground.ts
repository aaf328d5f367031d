// Blocks and stakes: what the rest is laid out in and measured from.
import { type Block, boundaryOf, type Stake, withUnit } from '../stand/index.ts';
import { areaColumns, entryTimes, text, timeOf } from './columns.ts';
import { defineLayer } from './layer.ts';
import { pointShape } from './view.ts';

export const stakes = defineLayer<Stake>({
  name: 'stakes',
  title: 'Stakes',
  help: 'Reference points that others are measured from.',
  geometry: 'Point',
  subjects: ({ stand }) => stand.stakes.values(),
  label: ({ label }) => label,
  shape: (stake, { locator }) => pointShape(locator.stake(stake.id)),
  columns: [text('what', 'What it is made of.', ({ what }) => what), ...entryTimes<Stake>()],
});

export const blocks = defineLayer<Block>({
  name: 'blocks',
  title: 'Blocks',
  help: 'Areas under one prescription, within their boundary.',
  geometry: 'Polygon',
  subjects: ({ stand }) => stand.blocks.values(),
  label: ({ name }) => name,
  shape: (block, { locator }) => boundaryOf(block, locator),
  columns: [
    text('boundary_from', 'How the boundary is known.', ({ boundaryFrom }) => boundaryFrom),
    ...areaColumns<Block>('stated_area', 'ha', 'Area as stated in deed or plan.', ({ area }) => area),
    text('objective', 'What the cut is for.', ({ prescription }) => prescription?.body.objective),
    text(
      'prescription_by',
      'Who wrote the prescription, and which version.',
      ({ prescription }) => prescription?.body.source,
    ),
    timeOf<Block>(
      'prescription_at',
      'When the prescription in force was set.',
      ({ prescription }) => prescription?.entry,
    ),
    text(
      'tally_coverage',
      'Whether the tally is complete, sampled or partial; empty when nothing was said.',
      ({ tallyScope }) => tallyScope?.body.coverage,
    ),
    text('tally_floor', 'Smallest DBH of the tally, as entered.', ({ tallyScope }) => {
      const floor = tallyScope?.body.floor;
      return floor === undefined ? undefined : withUnit(floor);
    }),
    ...entryTimes<Block>(),
  ],
});
