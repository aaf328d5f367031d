// What was recorded on this phone, today and before, the last first.
import type { JSX } from 'preact';
import type { LogEntry } from '../../../../stand/index.ts';
import { Sign } from '../../look/index.ts';
import { clock, dayAndTime, text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go } from '../way.ts';
import { namesFor, sentenceOf } from './sentence.ts';

const words = text.keep.saved;
/** How many earlier entries are listed; all of them are in the logbook and in the copy. */
const earlier = 100;

export function SavedList(): JSX.Element {
  const { state } = useField();
  const own = [...state.folded.entries.values()]
    .filter(({ device }) => device === state.phone.device)
    .sort((a, b) => b.seq - a.seq);
  const midnight = new Date().setHours(0, 0, 0, 0);
  const today = own.filter(({ recordedAt }) => Date.parse(recordedAt) >= midnight);
  const before = own.filter(({ recordedAt }) => Date.parse(recordedAt) < midnight).slice(0, earlier);
  return (
    <Frame title={words.title} lead={today.length === 0 ? words.none : words.lead(today.length)}>
      <List entries={today} time={clock} />
      {before.length > 0 && (
        <Unfold label={words.older}>
          <List entries={before} time={dayAndTime} />
        </Unfold>
      )}
    </Frame>
  );
}

type Asked = Readonly<{ entries: readonly LogEntry[]; time: (at: number) => string }>;

function List({ entries, time }: Asked): JSX.Element {
  const { engine, state } = useField();
  const { folded } = state;
  const names = namesFor(engine, folded);
  return (
    <ul>
      {entries.map((entry) => {
        const standing = folded.standings.get(entry.id);
        const struck = standing === 'struck';
        const sentence = sentenceOf(folded, entry, names);
        const notes = [
          time(Date.parse(entry.recordedAt)),
          struck ? words.struck : standing === 'amended' ? words.amended : undefined,
          entry.position === undefined ? words.kept : words.sent,
        ];
        return (
          <li key={entry.id}>
            <button
              type="button"
              class="act quiet left line-item"
              onClick={() => go('entry', { entry: entry.id })}
            >
              <Sign of={struck ? 'strike' : entry.position === undefined ? 'send' : 'yes'} />
              <span class="grow">
                <span class={struck ? 'struck' : ''}>{sentence}</span>
                <span class="under soft">{notes.filter((note) => note !== undefined).join(', ')}</span>
              </span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
