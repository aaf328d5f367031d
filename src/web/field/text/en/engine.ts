// Sentences of the engine: why something was not done, and what to do.

export const engine = {
  noStorage: 'This browser keeps nothing here, so nothing can be recorded.',
  phoneFull: 'This phone is full: nothing more can be kept on it.',
  storageSilent: 'The storage of this phone does not answer.',
  notKept: (message: string) => `This phone did not keep it: ${message}`,
  otherDevice:
    'The storage of this phone was cleared, or set up anew in another window. Load this page again.',

  sayWho: 'say first who records on this phone: pair it, or write your name',
  eraseAtDesk: 'names and photos are erased at the desk, where the logbook is',
  noSuchKind: 'there is no such kind of entry',
  noSuchEntry: (text: string) => `there is no entry ${text} on this phone`,
  photoFirst: 'take the photo first',
  halfCharacter: 'a text in it holds half a character; type it anew',

  notPaired: 'This phone is not paired with a logbook.',
  insecure: 'The page did not come over HTTPS, so nothing is sent: anybody near could read it.',
  noAnswer: 'No answer from the logbook.',
  otherAnswer: 'Something other than the logbook answered; is there a sign-in page of this network?',
  refused: (status: number) => `The logbook refused (${status}).`,
  elsewhere: 'Another window of this page is sending just now.',
  otherLogbook: 'Another logbook answered than the one that this phone writes for. Nothing was sent.',
  pairedWithOther:
    'This is another logbook than the one that this phone writes for. Send what waits here to that one, then let this phone forget it.',
  conflict: 'The logbook has another entry under this id. Both are kept; ask whoever keeps the logbook.',

  nameYourself: 'Write your name first.',
  labelPhone: 'Say what this phone is called.',
  stillWaiting: (entries: number, photos: number) =>
    `Not yet: ${entries} entries and ${photos} photos are only on this phone. Send them or save them as a file first.`,

  notALine: (line: number, remedy: string) => `Line ${line}: ${remedy}`,
  notJson: 'this is not JSON; the line was cut off or changed',
  emptyFile: 'There is nothing in this file that the page can read.',
  fileOfOther: 'This file is a copy of another logbook than the one that this phone writes for.',
  noBeginning:
    'This file does not hold the beginning of the logbook, so it cannot be told which one it is of. Have a copy of the whole logbook made.',
};
