// Notes, photos, what was recorded, taking things back.
import { figure } from '../format.ts';
import { plural } from './common.ts';

export const keep = {
  note: {
    title: 'Write a note',
    save: 'Keep it',
    about: 'About',
    aboutGroup: 'this group',
    aboutStem: 'a stem',
    aboutNothing: 'nothing in particular',
    needsText: 'write the note first',
  },
  photo: {
    title: 'Take a photo',
    first: 'What it is of comes first: it stays here if the camera makes the phone forget this page.',
    open: 'Open the camera',
    again: 'Another one',
    save: 'Keep the photo',
    working: 'Making it smaller…',
    size: (width: number, height: number, kilobytes: number) =>
      `${figure(width)} × ${figure(height)}, ${figure(kilobytes)} kB`,
    unreadable:
      'This file cannot be read as a picture. Take it again, or choose a JPEG or PNG file; some phones save in a form that browsers cannot open.',
    notKept:
      'the phone could not keep it as a draft; keep the photo now, for it is gone if the page is closed before',
    stripped: 'Place and time inside the file are taken out.',
    placed: 'Your position now is kept with it.',
    keepOriginal: 'Keep the original file beside the log yourself; its SHA-256 goes into the entry.',
    alt: 'The photo as it will be kept',
    needsPhoto: 'take the photo first',
  },
  saved: {
    title: 'What was recorded',
    lead: (count: number) =>
      `${figure(count)} ${plural(count, 'entry', 'entries')} today, the last one first.`,
    none: 'Nothing was recorded today.',
    older: 'Earlier days',
    sent: 'sent',
    kept: 'kept on this phone, not sent',
    struck: 'struck',
    amended: 'put right later',
    details: (sentence: string) => `Details: ${sentence}`,
    detail: {
      title: 'One entry',
      happened: 'Happened',
      recorded: 'Recorded',
      by: 'By',
      position: 'In the logbook',
      notSent: 'not yet: kept on this phone',
      number: (position: number) => `entry ${figure(position)}`,
      id: 'Id',
      strike: 'Take it back',
      unknown: 'This entry is not on this phone.',
      photo: 'Photo',
      noPhoto: 'The picture is not on this phone.',
    },
  },
  strike: {
    title: 'Take it back',
    lead: 'It is struck, not rubbed out: the log keeps it, the stand forgets it.',
    why: 'Why?',
    reasons: [
      'touched by mistake',
      'wrong stem',
      'tag misread',
      'recorded twice',
      'it was otherwise',
    ] as readonly string[],
    other: 'another reason',
    strike: 'Strike it',
    needsReason: 'choose why it is struck, or write another reason',
    already: 'It is struck already.',
  },
} as const;
