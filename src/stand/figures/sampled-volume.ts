// Volume of standing trees per area of land, from plots.
import {
  isNotEnough,
  type NotEnough,
  notEnough,
  plotAmount,
  ruleUnit,
  type System,
  type Volume,
} from '../../measure/index.ts';
import type { Stand } from '../state.ts';
import { lengthOf } from './length.ts';
import type { Measure } from './plot-means.ts';
import { type InTree, type PlotRead, plotsByBlock, readPlot } from './plots.ts';
import { heightsFor, type StandingMethod, standingVolume } from './standing-volume.ts';

/** Board feet, cubic feet or cubic metres per acre or hectare, as rule and units were asked for. */
export function volumeMeasure(stand: Stand, asked: StandingMethod, system: System): Measure {
  const heights = heightsFor(asked, stand);
  const volumeOf = ({ row }: InTree): Volume | NotEnough =>
    standingVolume(
      {
        species: row.species,
        dbh: lengthOf(row.dbh, 'in'),
        height: row.height,
        merchantableHeight: row.merchantableHeight,
      },
      asked,
      heights,
    );
  const land = system === 'inch' ? 'ac' : 'ha';
  return {
    unit: `${ruleUnit(asked.rule)}/${land}`,
    ...originOf(stand, volumeOf),
    of: (plot) => sumOf(plot, volumeOf, land),
  };
}

function sumOf(
  { layout, trees }: PlotRead,
  volumeOf: (tree: InTree) => Volume | NotEnough,
  land: 'ac' | 'ha',
): number | NotEnough {
  const volumes = new Map(trees.map((tree) => [tree, volumeOf(tree)]));
  const missing = [...volumes.values()].find((volume) => isNotEnough(volume));
  const known = (tree: InTree) => {
    const volume = volumes.get(tree);
    return volume === undefined || isNotEnough(volume) ? undefined : volume.value;
  };
  const amount = plotAmount(layout, trees, land, known, 'volume');
  return isNotEnough(amount) && missing !== undefined
    ? notEnough(`${words(amount)} (${words(missing)}).`)
    : amount;
}

function words({ notEnough: sentence }: NotEnough): string {
  return sentence.replace(/^not enough data: /, '').replace(/\.$/, '');
}

/** Method and source as the volumes of the trees have them; of no tree at all, none. */
function originOf(
  stand: Stand,
  volumeOf: (tree: InTree) => Volume | NotEnough,
): Pick<Measure, 'method' | 'source'> {
  for (const plot of plotsByBlock(stand).flatMap(({ plots }) => plots)) {
    const read = readPlot(plot);
    if (isNotEnough(read)) continue;
    for (const tree of read.trees) {
      const volume = volumeOf(tree);
      if (!isNotEnough(volume)) return { method: volume.method, source: volume.source };
    }
  }
  return {};
}
