// log/entry: what an entry is, byte by byte, and the tree over all of them. Pure; runs on the phone too.
// Knows envelopes, hashes and proofs; knows nothing of trees in the woods, files or clocks.
export { fromBase64, toBase64 } from './base64.ts';
export {
  type EntryIssue,
  type Envelope,
  type EnvelopeReading,
  type Happened,
  type Json,
  type JsonBody,
  longestEntry,
  type Precision,
  parseEnvelope,
  readEnvelope,
  writeEntry,
} from './envelope.ts';
export {
  type ExchangeJson,
  type ExchangeLine,
  type ExchangeReading,
  exchangeJson,
  isExchangeJson,
  type Place,
  readExchangeJson,
  readExchangeLine,
  readSealedJson,
  type SealedRow,
  writeExchangeLine,
} from './exchange.ts';
export {
  emptyRoot,
  fromHex,
  type Leaf,
  leafBytes,
  leafHash,
  leafInput,
  nodeHash,
  portableSha256,
  type Sha256,
  type Signature,
  seal,
  toHex,
} from './hashing.ts';
export { headText, parseHead, type TreeHead } from './head.ts';
export {
  consistencyProof,
  inclusionProof,
  type NodeReader,
  verifyConsistency,
  verifyInclusion,
} from './proof.ts';
export {
  bytesToSign,
  type DeviceKey,
  keyIdOf,
  readPublicKey,
  signatureFrom,
  signatureIssue,
  type VerifyEd25519,
} from './signing.ts';
export { isTime } from './time.ts';
export { emptyFrontier, type Frontier, grow, type Node, rootOf, rootOfFrontier, subtreesOf } from './tree.ts';
