// What an auditor would ask about corrections: what was struck or amended, what waits for its entry, and
// what does not fit the entry it names.
import { compareText, type LogEntry } from './entry.ts';
import type { Finding } from './findings.ts';
import { words } from './labels.ts';

/** A correction, the id of what it names, and why it was made. */
type Corrected = Readonly<{ entry: LogEntry; target: string; reason: string }>;

export function struck(entry: LogEntry, by: Corrected): Finding {
  return {
    code: 'struck-entry',
    entries: [entry.id, by.entry.id],
    about: {},
    sentence: `An entry "${words(entry.type)}" was struck: ${by.reason}`,
    remedy: 'Nothing to do if the reason holds; striking the strike restores the entry.',
    at: by.entry.recordedAt,
  };
}

export function amended(entry: LogEntry, by: Corrected): Finding {
  return {
    code: 'amended-entry',
    entries: [entry.id, by.entry.id],
    about: {},
    sentence: `An entry "${words(entry.type)}" was amended: ${by.reason}`,
    remedy: 'Nothing to do if the reason holds; both versions stay in the log.',
    at: by.entry.recordedAt,
  };
}

export function missing(correction: Corrected): Finding {
  return {
    code: 'missing-target',
    entries: [correction.entry.id],
    about: {},
    sentence: `A correction names an entry that is not in this log yet: ${correction.reason}`,
    remedy: "Send the other device's entries; the correction applies as soon as its entry is here.",
    at: correction.entry.recordedAt,
  };
}

export function misfit(correction: Corrected): Finding {
  return {
    code: 'missing-target',
    entries: [correction.entry.id, correction.target],
    about: {},
    sentence: `A correction does not fit what it names, so it does not apply: ${correction.reason}`,
    remedy:
      'An amendment is for the same kind of entry, and no chain of corrections leads back to itself. Record the correction again.',
    at: correction.entry.recordedAt,
  };
}

export function rivalry(rivals: readonly Corrected[], winner: Corrected): Finding {
  return {
    code: 'two-corrections',
    entries: rivals.map(({ entry }) => entry.id).sort(compareText),
    about: {},
    sentence: `${rivals.length} corrections were made of one version; the later one applies: ${winner.reason}`,
    remedy: 'Look at both. If the wrong one applies, strike it; the other one then holds.',
    at: winner.entry.recordedAt,
  };
}

export function struckOpening(correction: Corrected): Finding {
  return {
    code: 'missing-target',
    entries: [correction.target, correction.entry.id],
    about: {},
    sentence: `The entry that opened the logbook cannot be struck, so it stays in force: ${correction.reason}`,
    remedy:
      'Everything else rests on it. If something in it is wrong, amend it; strike this strike to be rid of the finding.',
    at: correction.entry.recordedAt,
  };
}
