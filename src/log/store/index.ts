// log/store: keeps the entries of one property in one SQLite file, so that nothing is lost, nothing is
// changed and both can be shown. May look into log/entry and into Node; knows nothing of trees.
export {
  backupLogbook,
  type Restored,
  restoreLogbook,
} from './backup.ts';
export { type DeviceMemory, forgetDevice, recallDevice, remember, rememberedDevice } from './device.ts';
export { verifyEd25519 } from './ed25519.ts';
export { LogbookError, type LogbookErrorCode } from './error.ts';
export { createLogbook, type OpenOptions, openLogbook } from './logbook.ts';
export { mustBePlaceable } from './new-file.ts';
export type {
  AppendOptions,
  Aside,
  BackupMade,
  ComposeOptions,
  Incoming,
  IncomingCheck,
  Log,
  LogbookFacts,
  Lookup,
  MayFollow,
  Receipt,
  SealedRow,
  Stored,
  Supplied,
} from './port.ts';
export { fileOfLogbook, homeFolder, writePrivateFile } from './private-file.ts';
export type {
  DeviceSequence,
  KeysFrom,
  Problem,
  ProblemCode,
  SignatureNotes,
  Verification,
  VerifyOptions,
} from './verification.ts';
export { verifyLogbook } from './verify.ts';
