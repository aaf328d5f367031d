// trust: what HTTPS in the local net needs. A certificate authority of this machine alone, kept in the home folder;
// server certificates from it, renewed by themselves; or a certificate that the keeper brings along.
export { type Authority, fingerprintOf, openAuthority } from './authority.ts';
export { TrustError } from './error.ts';
export { type MachineNames, namesOfMachine } from './names.ts';
export { ownCertificate } from './own.ts';
export { type ServerCertificate, serverCertificate } from './server-certificate.ts';
export { permitsInWords, type Vouching, type VouchOptions, vouch } from './vouching.ts';
