// The outbox, exchanging, files, and how the phone itself is doing.
import { clock, dayAndTime, figure } from '../format.ts';
import { plural, span } from './common.ts';

const megabyte = 1_000_000;

export const sending = {
  title: 'Sending',
  line: {
    waiting: (count: number, oldest: string | undefined) =>
      `${figure(count)} not sent, ${oldest === undefined ? 'just now' : `oldest ${oldest}`}`,
    photos: (count: number) => `${figure(count)} ${plural(count, 'photo', 'photos')} not sent`,
    allSent: (last: number | undefined) =>
      last === undefined ? 'Nothing waits to be sent' : `All sent; the logbook answered ${clock(last)}`,
    files: 'Nothing waits for the desk',
    attention: (count: number) =>
      `${figure(count)} ${plural(count, 'entry needs', 'entries need')} attention`,
    full: 'This phone is full: nothing more can be kept',
    broken: 'This phone does not keep what is recorded',
    unknown: 'The logbook does not know this phone any more',
    heard: 'Open Sending.',
  },
  waitingTitle: 'Kept here, not sent',
  waiting: (count: number) => `${figure(count)} ${plural(count, 'entry', 'entries')}`,
  oldest: (age: string) => `the oldest is ${age} old`,
  photos: (count: number) => `${figure(count)} ${plural(count, 'photo', 'photos')} to follow`,
  sent: (count: number) => `${figure(count)} of this phone in the logbook`,
  now: 'Send now',
  busy: 'Sending…',
  last: (at: number) => `The logbook answered on ${dayAndTime(at)}`,
  never: 'The logbook has not answered yet.',
  next: (at: number) => `Tried again by itself at ${clock(at)}, and when there is a signal.`,
  state: {
    idle: 'Nothing is under way.',
    sending: 'Sending…',
    'no-answer': 'The logbook does not answer. Nothing is lost; it is tried again.',
    refused: 'The logbook answered, but refused.',
    'not-paired': 'The logbook does not know this phone any more. Pair it again; what is kept here stays.',
    'other-logbook': 'That is another logbook. Nothing was sent.',
    insecure: 'This connection cannot be trusted, so nothing is sent over it.',
  },
  filesOnly: 'This phone is not paired: entries go to the desk as a file.',
  attention: {
    title: 'Needs attention',
    lead: 'The logbook could not take these in. They stay here; later entries go on.',
    conflict: 'the logbook has another entry of this id',
    unreadable: 'the logbook cannot read it',
    'photo-refused': 'the logbook has the entry, and did not take the picture',
    look: 'Look at it',
  },
  lost: (count: number) =>
    `The logbook has ${figure(count)} ${plural(count, 'entry', 'entries')} of this phone that the phone no longer holds. Its storage was cleared; they are not lost, they are in the logbook.`,
  files: {
    title: 'As files',
    outbox: 'Save the outbox',
    outboxUnder: 'what waits, for gapledger record --from',
    copy: 'Save everything',
    copyUnder: 'the whole copy on this phone',
    take: 'Take in a file',
    takeUnder: 'a copy of the logbook, or of another phone',
    taken: (fresh: number, confirmed: number) =>
      `Taken in: ${figure(fresh)} new ${plural(fresh, 'entry', 'entries')}, ${figure(confirmed)} of this phone confirmed.`,
    unread: (count: number) =>
      `${figure(count)} ${plural(count, 'line', 'lines')} could not be read; keep the file.`,
    notTaken: (why: string) => `Not taken in: ${why}`,
    saved: (name: string) =>
      `Saved as ${name}. Check that it is in the phone's downloads before you rely on it.`,
    notSaved: (why: string) => `The file was not made: ${why}`,
  },
  phone: {
    title: 'This phone',
    person: 'Who records',
    label: 'Phone',
    nobody: 'nobody yet',
    paired: 'paired with the logbook',
    unpaired: 'not paired',
    signs: 'signs what it records',
    noSign: 'does not sign: no key without a trusted connection',
    before: (label: string, entries: number) =>
      `The logbook knows another phone called ${label}, with ${figure(entries)} ${plural(entries, 'entry', 'entries')}. If it is this one, its storage was cleared: what it had sent is in the logbook, what waited on it is lost. Have the old one revoked at the desk (gapledger devices).`,
    pair: 'Pair with the logbook',
    forget: 'Unpair this phone',
    forgetUnder: 'what is kept here stays',
    forgetTitle: 'Unpair this phone',
    forgetLead:
      'It loses its right to send and to read. Nothing that is kept here is taken away. To pair it again you need a new code.',
    forgetWaiting: (count: number) =>
      `${figure(count)} ${plural(count, 'entry is', 'entries are')} not sent. Send them or save the outbox first.`,
    forgetSure: 'I have a new code, or do not need one',
    forgetGo: 'Unpair it',
    forgetNeedsSure: 'say that you can do without',
  },
  storage: {
    title: 'Storage',
    works: 'Writing and reading back works.',
    broken:
      'Writing and reading back FAILED: nothing recorded here is kept. Is this a private window? Use paper, or another phone.',
    persisted: 'The browser has promised to keep it until you clear it yourself.',
    notPersisted:
      'The browser may clear it when the phone runs out of room, some after a week without a visit. Put the page on the home screen, and send often.',
    unknown: 'This browser makes no promise about keeping it. Send often.',
    ask: 'Ask the browser to keep it',
    used: (used: number, quota: number) =>
      `${figure(used / megabyte, 1)} MB used of ${figure(quota / megabyte)} MB that the browser allows.`,
    full: 'FULL: the last entry could not be stored. Save the outbox as a file and free some room.',
  },
  clock: {
    title: 'Clock',
    ahead: (milliseconds: number) =>
      milliseconds >= 0
        ? `This phone's clock is ${span(milliseconds)} ahead of the logbook's.`
        : `This phone's clock is ${span(-milliseconds)} behind the logbook's.`,
    remedy:
      'Set the clock right in the phone. Times stay as they are written; that the clock was off is recorded by itself, and the order allows for it.',
    recorded: (milliseconds: number) =>
      Math.abs(milliseconds) < 60_000
        ? 'Recorded: it agrees again.'
        : `Recorded: ${span(Math.abs(milliseconds))} ${milliseconds > 0 ? 'ahead' : 'behind'}.`,
    good: 'Agrees with the logbook to within two minutes.',
    unknown: 'Not compared yet: that happens with each exchange.',
  },
  secure: {
    title: 'Connection',
    yes: 'Trusted (https): location, signing, working without a signal and keeping the screen on are possible.',
    here: 'Trusted (this very computer): location, signing, working without a network and keeping the screen on are possible.',
    no: 'NOT trusted: no location, no signing, nothing is sent, and the page does not open without a signal. Entries can be typed and kept while it is open, and saved as a file.',
    guide: 'Show the way to a trusted connection',
  },
  update: {
    waiting: 'A newer version of this page is here.',
    go: 'Use the new version',
    under: 'what is kept stays',
  },
} as const;
