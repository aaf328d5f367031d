// Zip: members by name, inflated only when they fit. A member that says it is small is given no more room than it says, so
// a bomb finds none.
import { unzipSync } from 'fflate';
import { ImportRefusal, limits } from '../source.ts';

/** @throws ImportRefusal for what is no zip file, or holds more than is taken in */
export function unzip(bytes: Uint8Array): ReadonlyMap<string, Uint8Array> {
  let total = 0;
  let members = 0;
  const weigh = ({
    originalSize,
    name,
    compression,
  }: {
    originalSize: number;
    name: string;
    compression: number;
  }): boolean => {
    members += 1;
    if (name.endsWith('/') || name.startsWith('__MACOSX/')) return false;
    total += originalSize;
    if (compression !== 0 && compression !== 8)
      throw new ImportRefusal(name, '', 'is compressed in a way that is not read here; zip it anew');
    if (members > limits.zipMembers || total > limits.unzippedBytes)
      throw new ImportRefusal(
        'file',
        '',
        `unpacks to more than ${limits.unzippedBytes / 1e6} MB or ${limits.zipMembers} members; unpack it and give the one file that is wanted`,
      );
    return true;
  };
  try {
    return new Map(Object.entries(unzipSync(bytes, { filter: weigh })));
  } catch (error) {
    if (error instanceof ImportRefusal) throw error;
    throw new ImportRefusal(
      'file',
      '',
      `is no zip file that can be read (${error instanceof Error ? error.message : ''})`,
    );
  }
}
