// gapledger log --copy FILE: the whole log as a file for a phone that gets no other connection.
import { headText, writeExchangeLine } from '../src/log/entry/index.ts';
import type { Log } from '../src/log/store/index.ts';
import { exchangeLines } from '../src/record/index.ts';
import { counted, progress, say, sayJson, writeInParts } from './terminal/index.ts';

/** Writes all entries with their receipts, and the names and contacts that they name; not the photos. */
export async function copyLog(log: Log, file: string, { json = false }: { json?: boolean }): Promise<void> {
  const head = await log.head();
  const bar = progress('Entries written');
  let written = 0;
  const texts = async function* (): AsyncGenerator<string> {
    for await (const lines of exchangeLines(log, { to: head.size })) {
      yield lines.map((line) => `${writeExchangeLine(line)}\n`).join('');
      written += lines.length;
      bar.at(written, head.size);
    }
  };
  await writeInParts(file, texts());
  bar.end();
  if (json) return sayJson({ file, entries: written, head: { ...head, text: headText(head) } });
  say(`${file}: ${counted(written, 'entry', 'entries')}. Head: ${headText(head)}`);
  say('The names and contacts of people are in it, so give it only to those who may read the logbook.');
}
