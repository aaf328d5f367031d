// Pictures that were taken and are not saved yet: part of a draft, in a database that may fail without taking anything
// along.
import type { Picture } from './port.ts';
import type { Database, PicturesSchema } from './storage/database.ts';

export type Pictures = Readonly<{
  get: (screen: string) => Promise<Picture | undefined>;
  /** @throws StorageError when the phone does not keep it */
  put: (screen: string, picture: Picture) => Promise<void>;
  drop: (screen: string) => Promise<void>;
  clear: () => Promise<void>;
}>;

export function picturesIn(database: Database<PicturesSchema>): Pictures {
  return {
    get: async (screen) => {
      const row = await database.read((db) => db.get('pictures', screen));
      if (row === undefined) return undefined;
      const { screen: _, ...picture } = row;
      return picture;
    },
    put: (screen, picture) =>
      database.write(
        ['pictures'],
        async (transaction) => void (await transaction.objectStore('pictures').put({ ...picture, screen })),
      ),
    drop: (screen) =>
      database.write(['pictures'], (transaction) => transaction.objectStore('pictures').delete(screen)),
    clear: () => database.write(['pictures'], (transaction) => transaction.objectStore('pictures').clear()),
  };
}
