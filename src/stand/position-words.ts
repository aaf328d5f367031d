// A position in words, as it was entered: nothing is converted or resolved.
import type { PositionEntered } from '../place/index.ts';
import { stemLabel, withUnit } from './labels.ts';
import type { Stand } from './state.ts';

/** Where somebody said that it is, such as `42 ft at 135 mag from stake A`. */
export function positionWords(stand: Stand, entered: PositionEntered): string {
  switch (entered.how) {
    case 'fix':
      return `at ${entered.lat}, ${entered.lon}`;
    case 'grid':
      return `at ${entered.easting}, ${entered.northing} in ${entered.crs}`;
    case 'offset': {
      const { from } = entered;
      const anchor =
        'stake' in from
          ? `stake ${stand.stakes.get(from.stake)?.label ?? 'unknown'}`
          : stemLabel(stand.stems.get(from.stem));
      return `${withUnit(entered.distance)} at ${entered.azimuth.text} from ${anchor}`;
    }
    case 'local':
      return `at x ${withUnit(entered.x)}, y ${withUnit(entered.y)} of ${stand.blocks.get(entered.block)?.name ?? 'an unknown block'}`;
    case 'unknown':
      return 'place not known';
  }
}
