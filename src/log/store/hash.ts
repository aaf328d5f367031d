// SHA-256 by Node, several times faster than the portable one.
import { hash } from 'node:crypto';
import type { Sha256 } from '../entry/index.ts';

export const sha256: Sha256 = (data) => hash('sha256', data, 'buffer');
/** A text is hashed as UTF-8. */
export const sha256Hex = (data: Uint8Array | string): string => hash('sha256', data, 'hex');
