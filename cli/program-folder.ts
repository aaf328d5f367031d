// Where the program lies, with what was built beside it.
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The built field page: dist/web/field in the folder of the program, whichever of its files was started. */
export function fieldFolder(started: string = process.argv[1] ?? '.'): string {
  const beside = dirname(realpathSync(started));
  for (let folder = beside; ; folder = dirname(folder)) {
    const built = join(folder, 'dist/web/field');
    if (existsSync(built)) return built;
    if (dirname(folder) === folder) return join(beside, '../web/field');
  }
}
