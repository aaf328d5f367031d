// The outbox and the whole copy as files, and taking a file in: the route without a server.
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { Engine } from '../../engine/port.ts';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';

const words = text.sending.files;

export function Files(): JSX.Element {
  const { engine } = useField();
  const [said, setSaid] = useState<string | undefined>(undefined);
  const save = async (what: 'outbox' | 'copy') => {
    try {
      const { name, bytes } = await engine.fileOf(what);
      offer(name, bytes);
      setSaid(words.saved(name));
    } catch (error) {
      setSaid(words.notSaved(error instanceof Error ? error.message : String(error)));
    }
  };
  return (
    <section class="section" aria-labelledby="as-files">
      <h2 id="as-files">{words.title}</h2>
      <Act under={words.outboxUnder} onTouch={() => void save('outbox')}>
        {words.outbox}
      </Act>
      <Act looks="quiet" under={words.copyUnder} onTouch={() => void save('copy')}>
        {words.copy}
      </Act>
      <TakeIn />
      <p role="status">{said}</p>
    </section>
  );
}

export function TakeIn(): JSX.Element {
  const { engine } = useField();
  const [said, setSaid] = useState<string | undefined>(undefined);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    try {
      const done = await engine.takeIn(new Uint8Array(await file.arrayBuffer()));
      setSaid(done.ok ? takenWords(done) : words.notTaken(done.why));
    } catch (error) {
      setSaid(words.notTaken(error instanceof Error ? error.message : String(error)));
    }
  };
  return (
    <>
      <label class="act quiet">
        <span>
          {words.take}
          <span class="under">{words.takeUnder}</span>
        </span>
        <input
          class="only-heard"
          type="file"
          onChange={(event) => {
            void take(event.currentTarget.files?.[0]);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p role="status">{said}</p>
    </>
  );
}

type Taken = Extract<Awaited<ReturnType<Engine['takeIn']>>, { ok: true }>;

function takenWords({ fresh, confirmed, unread }: Taken): string {
  const taken = words.taken(fresh, confirmed);
  return unread.length === 0 ? taken : `${taken} ${words.unread(unread.length)} ${unread[0]}`;
}

/** Hands a file to the phone's downloads. */
function offer(name: string, bytes: Uint8Array): void {
  const address = URL.createObjectURL(new Blob([bytes as BlobPart], { type: 'application/x-ndjson' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
