// server: the logbook over HTTP: API, map layers, reports, pages; on this machine, and for paired devices in the local
// net. Everything that is answered is read from the log by the rooms below; nothing is decided here but who may ask.
export {
  accessBy,
  type Code,
  type Codes,
  isRole,
  oneTimeCodes,
  type PairedDevice,
  type Registry,
  type Role,
  registryOf,
  roles,
} from './access/index.ts';
export { type AppOptions, createApp } from './app.ts';
export type { Answered } from './environment.ts';
export type { TrustOptions } from './routes/trust.ts';
export { type Served, type ServeOptions, serve } from './serve.ts';
export type { Vouching } from './trust/index.ts';

/** Certificates and the authority of this machine; loaded only by who lets other machines in. */
export const loadTrust = () => import('./trust/index.ts');
