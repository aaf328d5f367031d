// access: who may do what. Devices are paired with a one-time code, show a token, and have a role; what is kept of
// that lies in the home folder of this machine, never in the logbook.
export { type Access, accessBy, admit, tooManyTries } from './admit.ts';
export { type Code, type Codes, oneTimeCodes, type Taken } from './codes.ts';
export { type PairedDevice, type Registry, registryOf } from './registry.ts';
export { isRole, type Role, roles } from './role.ts';
export { hashOfToken, newToken } from './token.ts';
export { type Tries, triesBy } from './tries.ts';
