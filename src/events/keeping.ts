// Keeping the log: notes, photos, clocks, reports, and putting mistakes right.
import * as z from 'zod';
import {
  azimuth,
  count,
  data,
  entryReference,
  happened,
  label,
  position,
  reference,
  sealed,
  sha256,
  text,
  timeSpan,
  uuid,
} from './fields.ts';
import { field, many, optional } from './form.ts';
import { defineKind, type JsonObject } from './kind.ts';

const chapter = 'Keeping the log';

const jsonObject = () =>
  z.custom<JsonObject>((value) => typeof value === 'object' && value !== null && !Array.isArray(value), {
    message: 'a JSON object',
  });

const about = {
  stem: optional(reference('stem', 'About which stem.', 'A12')),
  sapling: optional(reference('sapling', 'About which sapling.', 's1')),
  group: optional(reference('group', 'About which group.', 'G1')),
  block: optional(reference('block', 'About which block.', 'North cove')),
};

export const noteWritten = defineKind({
  type: 'note-written',
  chapter,
  title: 'Note written',
  help: 'Anything worth remembering.',
  fields: {
    text: text('The note.', 'wind rising from the west, stopped at noon'),
    ...about,
    patch: optional(reference('patch', 'About which regeneration patch.', 'p1')),
    position: optional(position('Where.')),
  },
  example: { text: 'wind rising from the west, stopped at noon', group: 'G1' },
});

export const photoTaken = defineKind({
  type: 'photo-taken',
  chapter,
  title: 'Photo taken',
  help: 'A photo, kept beside the log by its hash, erasable.',
  fields: {
    photo: sealed('The picture file.', 'stump-A12.jpg'),
    mediaType: label('Media type of the file.', 'image/jpeg'),
    original: optional(
      label(
        'SHA-256 of the file as the camera wrote it, where a smaller one is kept.',
        '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
      ),
    ),
    of: optional(text('What it shows.', 'stump of A12 with rot')),
    ...about,
    facing: optional(azimuth('Direction the camera faced.', '40 mag')),
    position: optional(position('Where it was taken.')),
  },
  example: { photo: 'stump-A12.jpg', mediaType: 'image/jpeg', of: 'stump of A12 with rot', stem: 'A12' },
});

export const clockOffsetNoted = defineKind({
  type: 'clock-offset-noted',
  chapter,
  title: 'Clock offset noted',
  help: "A device's clock was found to be wrong. Its times stay as written; the order of happening allows for it.",
  fields: {
    device: field(uuid, { is: 'data' }, 'Which device (this one, if left out on the command line).', ''),
    ahead: timeSpan('How far its clock is ahead of true time; negative when it is behind.', '-300 s'),
    since: optional(happened('From when on it was wrong, by its own clock.')),
  },
  example: { ahead: '-300 s' },
});

export const importMade = defineKind({
  type: 'import-made',
  chapter,
  title: 'Import made',
  help: 'A file was brought in; the entries made from it follow in the same batch. Striking this entry takes all of them out of the stand. "gapledger import" writes it.',
  fields: {
    file: label('Name of the file.', 'cruise.gpx'),
    sha256: sha256('Hash of the file, by which it is known again.'),
    format: label('Format of the file.', 'GPX 1.1'),
    as: label('What its things were taken for.', 'stakes'),
    entries: count('How many entries of this device follow that were made from it.', '24'),
    mapping: optional(label('Name that its columns are remembered by.', 'census')),
    columns: optional(data(jsonObject, 'Which columns were read as what.')),
    answers: optional(many(label('What was asked about the file, and the answer.', 'day-month=month-first'))),
  },
  example: {
    file: 'cruise.gpx',
    sha256: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    format: 'GPX 1.1',
    as: 'stakes',
    entries: '24',
  },
});

export const reportIssued = defineKind({
  type: 'report-issued',
  chapter,
  title: 'Report issued',
  help: 'A report left the house. Its hash, the size of the log and the program version are kept, so that it can be made again.',
  fields: {
    report: label('Which report.', 'harvest'),
    sha256: sha256('Hash of the report as issued (its JSON form).'),
    size: count('Entries in the log when it was made.', '214'),
    root: sha256('Root of the log at that size.'),
    rules: optional(
      data(
        () => z.array(z.strictObject({ name: z.string().max(200), sha256: z.string() })),
        'Rule texts it was held against, by hash.',
      ),
    ),
    program: label('Program and version that made it.', 'gapledger 0.1.0'),
    to: optional(label('Whom it was for, by office and not by name.', 'county forester')),
  },
  example: {
    report: 'harvest',
    sha256: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    size: '214',
    root: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    program: 'gapledger 0.1.0',
    to: 'county forester',
  },
});

export const entryAmended = defineKind({
  type: 'entry-amended',
  chapter,
  title: 'Entry amended',
  help: 'Puts an earlier entry right. Type the fields of its own kind that were wrong; takeOut names fields that it should not have, and itsReason is the reason that the entry itself gives. A whole new body is stored, and the earlier version stays in the log.',
  fields: {
    replaces: entryReference('The version that it replaces: an entry, or an earlier amendment.'),
    type: label('Kind of the entry.', 'stem-marked'),
    v: count('Version of the body.', '1'),
    body: data(jsonObject, 'The whole new body.'),
    happenedAt: happened('When it happened.'),
    reason: text('What was wrong.', 'tag misread: A12, not A21'),
  },
  example: { replaces: '17', tag: 'A12', reason: 'tag misread: A12, not A21' },
});

export const entryStruck = defineKind({
  type: 'entry-struck',
  chapter,
  title: 'Entry struck',
  help: 'Takes an entry or a correction out of the stand. It stays in the log; striking the strike restores it.',
  fields: {
    strikes: entryReference('Which entry or correction.'),
    reason: text('Why.', 'recorded twice'),
  },
  example: { strikes: '17', reason: 'recorded twice' },
});
