// record: deciding. The stand and what somebody wants to record -> entries to append, or questions to ask.
// Typed entries are looked at and asked about; what arrives from a device's outbox is appended as it is.
export { append, type Decided } from './compose.ts';
export { crowdingQuestions } from './crowding.ts';
export { type Desk, type Outside, sitDown } from './desk.ts';
export { type KeyOfDevice, keyFrom } from './device-keys.ts';
export { exchangeLines } from './exchange-lines.ts';
export { type FiguresTyped, readFigures, readMethod } from './figures/index.ts';
export type { FileBytes, ImportPlan, ImportTyped } from './import/index.ts';
/** Bringing files in; loaded when it is called for. */
export const importing = () => import('./import/index.ts');
export { headAt, type MomentReading, type MomentTyped, readMoment } from './moment.ts';
export { knownNames, nameRows } from './names.ts';
export {
  appendOpening,
  type Opened,
  type Opening,
  type OpeningRead,
  openBook,
  readOpening,
} from './open.ts';
export { exchangeIncoming, type OutboxLine, outboxLines } from './outbox-lines.ts';
export type { Question } from './questions.ts';
export { devicesIn, type Received, type ReceiveOptions, receive, rowsMayFollow } from './receive.ts';
export { loadAll, type Moment, readStand, toEntry } from './slice.ts';
export { type Stage, stage } from './stage.ts';
export { entryNaming, supplySealed } from './supply.ts';
export { type Draft, type Recorded, recordDraft } from './typed.ts';
export { kindTyped } from './wanted.ts';
export { whoDidIt } from './who.ts';
