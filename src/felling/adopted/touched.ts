// What each kind of entry says against a plan that did not know it: a sentence, or nothing where it touches none of its inputs.
// The table has a line for every kind, so that a new one cannot be forgotten.
import type { Body, Event, EventType } from '../../events/index.ts';
import {
  groupLabel,
  hazardWords,
  type Sapling,
  type Stem,
  saplingLabel,
  stemLabel,
  words,
} from '../../stand/index.ts';
import type { Sight } from './sight.ts';

/** @param when RFC 3339, for positions that the entry brings itself */
type Touch<T extends EventType> = (body: Body<T>, sight: Sight, when: string) => string | undefined;

/** What says nothing about where a stem may fall. */
const never = () => undefined;

const touches: { readonly [T in EventType]: Touch<T> } = {
  // Only a correction brings it in after a plan: the declination and the units that everything was read by.
  'logbook-opened': () => 'What the logbook says of north and of units is not as it was.',
  'person-named': never,
  'personal-data-erased': never,
  'device-paired': never,
  'device-revoked': never,
  'block-laid-out': ({ block, name, boundary = [] }, sight, when) =>
    sight.isBoundaryNear(block) || sight.isLineNear(boundary, when) || sight.hangsOn('block', block)
      ? `The boundary of ${name} was entered anew.`
      : undefined,
  'prescription-set': never,
  'tally-scope-set': never,
  'stake-set': ({ stake, label }, sight) =>
    sight.hangsOn('stake', stake)
      ? `Stake ${label} was measured anew; what was measured from it moves.`
      : undefined,
  'boundary-evidence-noted': ({ block }, sight) =>
    sight.blocks.has(block) ? 'How a line of the block is known was noted anew.' : undefined,
  'feature-mapped': ({ feature, label, what, point, line = [], edge = [] }, sight, when) =>
    what !== 'abutter' &&
    (sight.isFeatureNear(feature) ||
      sight.isNear(point, when) ||
      sight.isLineNear(line, when) ||
      sight.isLineNear(edge, when))
      ? `${label} (${words(what)}) was mapped within reach.`
      : undefined,
  'neighbour-consent-noted': ({ block, stems = [] }, sight) =>
    stems.some(sight.isToFell) || (stems.length === 0 && sight.blocks.has(block ?? ''))
      ? 'What a neighbour agreed to was noted anew.'
      : undefined,
  'emergency-card-set': never,
  'call-expected': never,
  'call-made': never,
  'emergency-contacts-erased': never,
  'note-written': never,
  'photo-taken': never,
  'report-issued': never,
  'group-laid-out': ({ group, label }, sight) =>
    group === sight.group ? `${label} was laid out anew.` : undefined,
  'group-widened': never,
  'opening-measured': never,
  'opening-closed': ({ group }, sight) =>
    group === sight.group ? `${groupLabel(sight.stand.groups.get(group))} was closed.` : undefined,
  'opening-reopened': never,
  'stem-marked': ({ stem, position }, sight, when) =>
    sight.isToFell(stem)
      ? anew(stem, sight)
      : isStanding(stem, sight) &&
          !isToBeCut(stem, sight) &&
          (sight.isStemNear(stem) || sight.isNear(position, when))
        ? `${label(stem, sight)} stands within reach, and the plan did not know it.`
        : undefined,
  'mark-changed': ({ stem }, sight) =>
    sight.isToFell(stem) || sight.isStemNear(stem) ? anew(stem, sight) : undefined,
  'stem-measured': ({ stem, height }, sight) => {
    if (isStanding(stem, sight) && (sight.isToFell(stem) || sight.isStemNear(stem))) return anew(stem, sight);
    return height === undefined || sight.byCurve.length === 0
      ? undefined
      : `A height was measured elsewhere, and the height of ${sight.byCurve.map(stemLabel).join(', ')} comes from the curve of all of them.`;
  },
  'tag-lost': never,
  'tag-replaced': never,
  'stem-felled': ({ stem }, sight) => {
    if (sight.planned.has(stem)) return undefined;
    if (sight.aside.has(stem)) return `${label(stem, sight)} was set aside by the plan and was felled.`;
    return gone(stem, 'was felled', sight);
  },
  'hang-up-cleared': ({ stem }, sight) =>
    sight.planned.has(stem) ? undefined : gone(stem, 'was brought down', sight),
  'stem-found-down': ({ stem }, sight) =>
    sight.planned.has(stem) ? undefined : gone(stem, 'was found down', sight),
  'stem-found-dead': ({ stem }, sight) =>
    sight.isToFell(stem) || sight.isStemNear(stem) ? `${label(stem, sight)} was found dead.` : undefined,
  // Worse rot at a stump of the plan is told with the fall; rot in a stem that stands changes where it may be aimed.
  'decay-measured': ({ stem }, sight) =>
    sight.isToFell(stem) && isStanding(stem, sight) ? anew(stem, sight) : undefined,
  'stump-audited': never,
  'plot-tallied': never,
  'regeneration-counted': never,
  'prices-set': never,
  // A later plan takes the place of this one; a wind is held against the plan by its speed.
  'felling-plan-adopted': never,
  'wind-noted': never,
  // Told for the person who adopted the plan alone; see reasons.ts.
  'felling-default-set': never,
  'sapling-protected': ({ sapling, position }, sight, when) =>
    sight.isSaplingNear('sapling', sapling) || sight.isNear(position, when)
      ? newGrowth(sight.stand.saplings.get(sapling))
      : undefined,
  'patch-protected': ({ patch, position, edge = [] }, sight, when) =>
    sight.isSaplingNear('patch', patch) || sight.isNear(position, when) || sight.isLineNear(edge, when)
      ? newGrowth(sight.stand.patches.get(patch))
      : undefined,
  'sapling-checked': ({ sapling, patch, condition }, sight) => {
    if (condition === 'unharmed') return undefined;
    const found =
      sapling === undefined ? sight.stand.patches.get(patch ?? '') : sight.stand.saplings.get(sapling);
    const isNear =
      sapling === undefined
        ? sight.isSaplingNear('patch', patch ?? '')
        : sight.isSaplingNear('sapling', sapling);
    return isNear ? `${saplingLabel(found)} ${foundWords(condition)}.` : undefined;
  },
  'hazard-noted': ({ hazard }, sight) => hazardTold(hazard, 'was noted', sight),
  'hazard-cleared': ({ hazard }, sight) => hazardTold(hazard, 'was cleared', sight),
  'damage-noted': never,
  'clock-offset-noted': never,
  'import-made': never,
  'entry-amended': never,
  'entry-struck': never,
};

/** What an entry that a plan did not know says against it; undefined where it touches none of its inputs. */
export function saidAgainst(event: Event, sight: Sight, when: string): string | undefined {
  const touch = touches[event.type] as Touch<EventType>;
  return touch(event.body, sight, when);
}

function stemIn(id: string, { stand }: Sight): Stem | undefined {
  return stand.stems.get(id);
}

function label(id: string, sight: Sight): string {
  return stemLabel(stemIn(id, sight));
}

function isStanding(id: string, sight: Sight): boolean {
  const status = stemIn(id, sight)?.status ?? 'standing';
  return status === 'standing' || status === 'dead';
}

/** One of the group that is to be cut: that the plan lacks it is told by what stands now, whichever entry marked it. */
function isToBeCut(id: string, sight: Sight): boolean {
  const stem = stemIn(id, sight);
  return stem?.group === sight.group && stem.mark === 'cut';
}

function anew(id: string, sight: Sight): string {
  return `Something new was recorded of ${label(id, sight)} since.`;
}

/** A stem that stood in the way, or could be struck, and is down. */
function gone(id: string, how: string, sight: Sight): string | undefined {
  return sight.aside.has(id) || sight.isStemNear(id)
    ? `${label(id, sight)}, which stood within reach, ${how}.`
    : undefined;
}

/** "was found broken" */
export function foundWords(condition: Body<'sapling-checked'>['condition']): string {
  return condition === 'not-found' ? 'was not found' : `was found ${words(condition)}`;
}

function newGrowth(thing: Sapling | Omit<Sapling, 'height'> | undefined): string {
  return `${saplingLabel(thing)} was recorded anew.`;
}

function hazardTold(id: string, how: string, sight: Sight): string | undefined {
  const hazard = sight.stand.hazards.get(id);
  if (hazard === undefined) return undefined;
  const { group, stem, position } = hazard;
  const isHere =
    group === sight.group ||
    (stem !== undefined && (sight.isToFell(stem) || sight.isStemNear(stem))) ||
    sight.isNear(position?.entered, position?.when ?? '');
  return isHere ? `A hazard ${how} since: ${hazardWords(sight.stand, hazard)}.` : undefined;
}
