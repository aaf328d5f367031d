// A position in words, as it was entered: nothing is converted or resolved.
import type { AnchorReference, PositionEntered } from '../place/index.ts';
import { stemLabel, withUnit } from './labels.ts';
import type { Stand } from './state.ts';

/** Where somebody said that it is, such as `42 ft at 135 mag from stake A`. */
export function positionWords(stand: Stand, entered: PositionEntered): string {
  switch (entered.how) {
    case 'fix':
      return `at ${entered.lat}, ${entered.lon}`;
    case 'grid':
      return `at ${entered.easting}, ${entered.northing} in ${entered.crs}`;
    case 'average':
      return `at the average of ${entered.fixes.length} fixes`;
    case 'offset':
      return `${withUnit(entered.distance)} at ${entered.azimuth.text} from ${anchorWords(stand, entered.from)}`;
    case 'distances': {
      const ways = entered.taped.map(
        ({ from, distance }) => `${withUnit(distance)} from ${anchorWords(stand, from)}`,
      );
      return [...ways, ...(entered.side === undefined ? [] : [entered.side])].join(', ');
    }
    case 'local':
      return `at x ${withUnit(entered.x)}, y ${withUnit(entered.y)} of ${stand.blocks.get(entered.block)?.name ?? 'an unknown block'}`;
    case 'unknown':
      return 'place not known';
  }
}

function anchorWords(stand: Stand, from: AnchorReference): string {
  return 'stake' in from
    ? `stake ${stand.stakes.get(from.stake)?.label ?? 'unknown'}`
    : stemLabel(stand.stems.get(from.stem));
}
