// One entry: what it says, when, by whom, and whether the logbook has it.
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { type LogEntry, timeText } from '../../../../stand/index.ts';
import { dayAndTime, text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go } from '../way.ts';
import { namesFor, sentenceOf } from './sentence.ts';

const words = text.keep.saved.detail;

export function Entry({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { engine, state } = useField();
  const { folded } = state;
  const entry = folded.entries.get(about.entry ?? '');
  if (entry === undefined) return <Frame title={words.title} lead={words.unknown} />;
  const names = namesFor(engine, folded);
  const struck = folded.standings.get(entry.id) === 'struck';
  const person = folded.stand.people.get(entry.by);
  const pairs: readonly [string, string][] = [
    [words.happened, timeText(entry.happenedAt)],
    [words.recorded, dayAndTime(Date.parse(entry.recordedAt))],
    [words.by, names.get(person?.name ?? '') ?? entry.by],
    [words.position, entry.position === undefined ? words.notSent : words.number(entry.position)],
    [words.id, entry.id],
  ];
  return (
    <Frame
      title={words.title}
      foot={
        struck ? (
          <p>{text.keep.strike.already}</p>
        ) : (
          <Act looks="grave" symbol="strike" onTouch={() => go('strike', { entry: entry.id })}>
            {words.strike}
          </Act>
        )
      }
    >
      <h2 class={struck ? 'struck' : ''}>{sentenceOf(folded, entry, names)}</h2>
      <dl class="pairs">
        {pairs.map(([term, said]) => (
          <>
            <dt key={term}>{term}</dt>
            <dd>{said}</dd>
          </>
        ))}
      </dl>
      {entry.type === 'photo-taken' && <Picture entry={entry} />}
      <Act looks="quiet" symbol="list" onTouch={() => go('saved')}>
        {text.keep.saved.title}
      </Act>
    </Frame>
  );
}

function Picture({ entry }: Readonly<{ entry: LogEntry }>): JSX.Element {
  const { engine } = useField();
  const [address, setAddress] = useState<string | undefined>(undefined);
  const hash = entry.body.photo;
  useEffect(() => {
    let made: string | undefined;
    if (typeof hash === 'string')
      void engine.photo(hash).then((blob) => {
        made = blob === undefined ? undefined : URL.createObjectURL(blob);
        setAddress(made);
      });
    return () => {
      if (made !== undefined) URL.revokeObjectURL(made);
    };
  }, [engine, hash]);
  return address === undefined ? (
    <p class="soft">{words.noPhoto}</p>
  ) : (
    <img class="photo-shown" src={address} alt={words.photo} />
  );
}
