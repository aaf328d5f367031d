// Any value of an entry's body in words: as it was written where that was kept, labels for identities.
import type { JsonObject, JsonValue } from '../events/index.ts';
import { groupLabel, saplingLabel, stemLabel } from '../stand/index.ts';
import type { Context } from './context.ts';

/** What an entry holds in one field, in words; "not recorded" where it holds nothing. */
export function valueText(context: Context, value: JsonValue | undefined): string {
  if (value === undefined || value === null) return 'not recorded';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return labelOf(context, value) ?? value;
  if (typeof value === 'number') return String(value);
  if (isList(value)) return value.map((one) => valueText(context, one)).join('; ');
  if (typeof value.how === 'string') return positionText(context, value);
  if (typeof value.text === 'string') return value.text;
  return Object.entries(value)
    .map(([name, one]) => `${name} ${valueText(context, one)}`)
    .join(', ');
}

function positionText(context: Context, position: JsonObject): string {
  const part = (name: string) => valueText(context, position[name]);
  switch (position.how) {
    case 'fix':
      return `${part('lat')}, ${part('lon')}`;
    case 'grid':
      return `${part('crs')} ${part('easting')}, ${part('northing')}`;
    case 'offset':
      return `${part('azimuth')}, ${part('distance')} from ${part('from')}`;
    case 'average':
      return `average of ${part('fixes')}`;
    case 'distances':
      return `${part('taped')}${position.side === undefined ? '' : `, ${part('side')}`}`;
    case 'local':
      return `x ${part('x')}, y ${part('y')}`;
    default:
      return 'unknown place';
  }
}

/** The label of the thing that an id stands for. */
function labelOf({ folded: { stand } }: Context, id: string): string | undefined {
  const stem = stand.stems.get(id);
  if (stem) return stemLabel(stem);
  const group = stand.groups.get(id);
  if (group) return groupLabel(group);
  const sapling = stand.saplings.get(id) ?? stand.patches.get(id);
  if (sapling) return saplingLabel(sapling);
  return stand.stakes.get(id)?.label ?? stand.blocks.get(id)?.name;
}

function isList(value: JsonValue): value is readonly JsonValue[] {
  return Array.isArray(value);
}
