// The logbook and its blocks: the prescription in force and what the tally covers.
import { speciesName } from '../events/index.ts';
import { type Block, breastHeightWords, withUnit } from '../stand/index.ts';
import { type Context, known, missing, recordedOr, term } from './context.ts';
import type { BlockPart, Fact, Term } from './model.ts';

export function logbookTerms(context: Context): Term[] {
  const { logbook } = context.folded.stand;
  if (logbook === undefined) {
    return [
      term('Property', missing('not recorded: no entry "logbook opened" is part of what is shown here')),
    ];
  }
  const { body } = logbook;
  const entries = context.numbers([logbook.entry]);
  return [
    term('Property', known(body.name, entries)),
    term('Times', known(`local times of ${body.zone}`, entries)),
    term(
      'Units of bare numbers',
      known(body.units === 'us' ? 'US customary (in, ft, ac)' : 'metric (cm, m, ha)', entries),
    ),
    term('Working CRS', known(body.crs, entries)),
    term('Breast height', recordedOr(breastHeightWords(body), entries)),
    term(
      'Declination',
      body.declination === undefined
        ? known('by the geomagnetic model; none of its own is recorded')
        : known(withUnit(body.declination), entries),
    ),
  ];
}

export function blockPart(context: Context, block: Block): BlockPart {
  const { boundary, boundaryFrom, area } = block;
  const entries = context.numbers(block.entries.slice(0, 1));
  const edge =
    boundary && `${boundary.length} corners${boundaryFrom === undefined ? '' : `, ${boundaryFrom}`}`;
  return {
    id: block.id,
    name: block.name,
    facts: [
      term('Area as stated', recordedOr(area && withUnit(area), entries)),
      term('Boundary', recordedOr(edge, entries)),
    ],
    prescription: prescription(context, block),
    scope: tallyScope(context, block),
  };
}

function prescription(context: Context, { prescription: set }: Block): BlockPart['prescription'] {
  if (set === undefined) return { inForce: missing('no prescription recorded'), facts: [] };
  const { body } = set;
  const entries = context.numbers([set.entry]);
  const happening = context.happening(set.entry);
  const since = happening === undefined ? '' : `, set ${context.time(happening.happenedAt)}`;
  const fact = (text: string | undefined) => recordedOr(text, entries);
  return {
    inForce: known(`${body.source ?? 'author and version not recorded'}${since}`, entries),
    facts: [
      term('Objective', fact(body.objective)),
      term('Residual basal area', fact(body.residualBasalArea && withUnit(body.residualBasalArea))),
      term('Smallest opening', fact(body.smallestOpening && withUnit(body.smallestOpening))),
      term('Largest opening', fact(body.largestOpening && withUnit(body.largestOpening))),
      term('Leave trees', fact(body.retention && withUnit(body.retention))),
      term('Favoured species', fact(body.favour?.map(speciesName).join(', '))),
      term('Sapling loss allowed', fact(body.saplingLoss && withUnit(body.saplingLoss))),
    ],
  };
}

function tallyScope(context: Context, { tallyScope: set }: Block): Fact {
  const noCensus = 'The figures below are of the groups; they are no census of the block.';
  if (set === undefined) return missing(`No tally scope is recorded. ${noCensus}`);
  const { coverage, floor, area } = set.body;
  const entries = context.numbers([set.entry]);
  const limits = [
    floor === undefined ? 'smallest DBH not recorded' : `DBH from ${withUnit(floor)}`,
    area === undefined ? 'area not recorded' : `over ${withUnit(area)}`,
  ].join(', ');
  if (coverage === 'complete') {
    return known(
      `The tally of the block is stated to be complete (${limits}). The figures below are of the groups.`,
      entries,
    );
  }
  const what = coverage === 'sampled' ? 'a sample' : 'partial';
  return known(`The tally of the block is stated to be ${what} (${limits}). ${noCensus}`, entries);
}
