// terminal: what all commands share. Opening the logbook, printing, asking, failing, writing files.
export { counted } from '../../src/stand/index.ts';
export { ask, canAsk, choose } from './ask.ts';
export { exitCodes, exitHelp, Failure, problemSentence } from './failure.ts';
export {
  type CommonOptions,
  deskAt,
  logbookPath,
  outside,
  personHere,
  rememberHead,
  rememberPerson,
  standAt,
  withDesk,
  withLog,
} from './logbook.ts';
export { type MomentOptions, readMoment } from './moment.ts';
export { type Column, noteAtTerminal, paint, progress, say, sayJson, table, tell } from './print.ts';
export { writeInParts, writeWhole } from './write.ts';
