// gapledger field-page: copies the built field page for a host that serves static files over HTTPS.
import { copyFileSync, existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fieldFolder } from './program-folder.ts';
import { counted, exitCodes, Failure, say, sayJson } from './terminal/index.ts';

type Flags = { to?: string; json?: boolean };

/** These tell a phone that there is something new, so they come when everything else is there. */
const last = ['index.html', 'sw.js', 'version.json'];

export function work(_words: string[], { to, json }: Flags): Promise<void> {
  if (to === undefined || to === '')
    throw new Failure(exitCodes.badInput, 'Say where to copy it: gapledger field-page --to FOLDER.');
  const built = fieldFolder();
  if (!existsSync(join(built, 'index.html')))
    throw new Failure(exitCodes.other, 'The field page is not built here. Build it: npm run build.');
  if (!isOurs(to))
    throw new Failure(
      exitCodes.badInput,
      `${to} holds something else. Name an empty folder, or one that holds an earlier copy of the page.`,
    );
  const files = readdirSync(built, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(built, name)).isFile())
    .sort((a, b) => last.indexOf(a) - last.indexOf(b));
  try {
    for (const name of files) {
      mkdirSync(dirname(join(to, name)), { recursive: true });
      copyFileSync(join(built, name), join(to, name));
    }
  } catch (error) {
    throw new Failure(
      exitCodes.other,
      `${to}: ${error instanceof Error ? error.message : 'cannot be written'}.`,
    );
  }
  if (json) sayJson({ to, files });
  else {
    say(`${counted(files.length, 'file')} copied to ${to}. Put the folder on any host with HTTPS.`);
    say('Entries go by file from there: "gapledger record --from FILE" takes in what a phone saved.');
  }
  return Promise.resolve();
}

function isOurs(folder: string): boolean {
  if (!existsSync(folder)) return true;
  if (!statSync(folder).isDirectory()) return false;
  return readdirSync(folder).length === 0 || existsSync(join(folder, 'version.json'));
}
