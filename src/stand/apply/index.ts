// One function per kind writes to the stand; this table is the only way in.
import type { Event, EventType } from '../../events/index.ts';
import type { Happening } from '../entry.ts';
import type { Stand } from '../state.ts';
import * as devices from './devices.ts';
import * as emergency from './emergency.ts';
import * as felling from './felling.ts';
import * as frame from './frame.ts';
import * as ground from './ground.ts';
import * as openings from './openings.ts';
import * as protection from './protection.ts';
import type { Apply } from './scene.ts';
import * as stems from './stems.ts';
import * as tallies from './tallies.ts';

export { type OpenThings, openIn } from './openings.ts';

/** Resolved before folding, so there is nothing left to apply: corrections, clock offsets, files brought in. */
const settledBefore = () => undefined;

const appliers: { readonly [T in EventType]: Apply<T> } = {
  'logbook-opened': frame.logbookOpened,
  'person-named': frame.personNamed,
  'personal-data-erased': frame.personalDataErased,
  'device-paired': devices.devicePaired,
  'device-revoked': devices.deviceRevoked,
  'block-laid-out': frame.blockLaidOut,
  'prescription-set': frame.prescriptionSet,
  'tally-scope-set': frame.tallyScopeSet,
  'stake-set': frame.stakeSet,
  'boundary-evidence-noted': ground.boundaryEvidenceNoted,
  'feature-mapped': ground.featureMapped,
  'neighbour-consent-noted': ground.neighbourConsentNoted,
  'emergency-card-set': emergency.emergencyCardSet,
  'call-expected': emergency.callExpected,
  'call-made': emergency.callMade,
  'emergency-contacts-erased': emergency.emergencyContactsErased,
  'note-written': frame.noteWritten,
  'photo-taken': frame.photoTaken,
  'report-issued': frame.reportIssued,
  'group-laid-out': openings.groupLaidOut,
  'group-widened': openings.groupWidened,
  'opening-measured': tallies.openingMeasured,
  'opening-closed': openings.openingClosed,
  'opening-reopened': openings.openingReopened,
  'stem-marked': stems.stemMarked,
  'mark-changed': stems.markChanged,
  'stem-measured': stems.stemMeasured,
  'tag-lost': stems.tagLost,
  'tag-replaced': stems.tagReplaced,
  'stem-felled': felling.stemFelled,
  'hang-up-cleared': felling.hangUpCleared,
  'stem-found-down': felling.stemFoundDown,
  'stem-found-dead': felling.stemFoundDead,
  'decay-measured': felling.decayMeasured,
  'stump-audited': tallies.stumpAudited,
  'plot-tallied': tallies.plotTallied,
  'regeneration-counted': tallies.regenerationCounted,
  'prices-set': tallies.pricesSet,
  'felling-plan-adopted': tallies.planAdopted,
  'felling-default-set': tallies.fellingDefaultSet,
  'wind-noted': tallies.windNoted,
  'sapling-protected': protection.saplingProtected,
  'patch-protected': protection.patchProtected,
  'sapling-checked': protection.saplingChecked,
  'hazard-noted': protection.hazardNoted,
  'hazard-cleared': protection.hazardCleared,
  'damage-noted': protection.damageNoted,
  'clock-offset-noted': settledBefore,
  'import-made': settledBefore,
  'entry-amended': settledBefore,
  'entry-struck': settledBefore,
};

/** Folds one happening into the stand. Total: whatever it contradicts becomes a finding, never an error. */
export function apply(stand: Stand, happening: Happening): void {
  const event: Event = happening.event;
  (appliers[event.type] as Apply<EventType>)(stand, event.body, happening);
}
