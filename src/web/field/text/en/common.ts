// Words that many screens share.
import { figure, pluralsOf } from '../format.ts';

export const plural = pluralsOf('en');

const minute = 60_000;
const hour = 60 * minute;
const day = 24 * hour;

/** How long something is, as briefly as it is understood: "under 1 min", "5 min", "2 h", "3 days". */
export function span(milliseconds: number): string {
  if (milliseconds < minute) return 'under 1 min';
  if (milliseconds < hour) return `${figure(milliseconds / minute)} min`;
  if (milliseconds < 2 * day) return `${figure(milliseconds / hour)} h`;
  return `${figure(Math.floor(milliseconds / day))} days`;
}

export const common = {
  back: 'Today',
  backHeard: 'Back to today',
  emergency: 'Emergency',
  cancel: 'Leave it',
  done: 'Done',
  yes: 'Yes',
  no: 'No',
  save: 'Save',
  choose: 'Choose',
  search: 'Search',
  optional: 'may be left out',
  loading: 'Reading what this phone holds…',
  saved: 'Kept',
  saving: 'Keeping…',
  takeBack: 'Take it back',
  notSaved: (count: number) =>
    `Not kept yet: ${plural(count, 'one thing has', `${figure(count)} things have`)} to be put right.`,
  notStored: 'This phone refused to store it. Nothing was kept; what you typed is still here.',
  notStoredRemedy: 'Save the outbox as a file (Sending), free some room on the phone, then try again.',
  wrong: (field: string, value: string, remedy: string) =>
    value === '' ? `${field}: ${remedy}` : `${field}: "${value}" cannot be taken; ${remedy}`,
  span,
  earlier: 'Earlier',
} as const;
