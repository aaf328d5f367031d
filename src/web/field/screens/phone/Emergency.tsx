// The emergency card: where help is to come, whom to call, where this phone is, and the call home. Works without a
// signal; everything on it is on the phone.
import type { JSX } from 'preact';
import { cautions } from '../../../../felling/index.ts';
import { isUnresolved, type LonLat } from '../../../../place/index.ts';
import { emergencyCardFor, locate } from '../../../../stand/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup } from '../context.ts';
import { Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { CallHome } from './CallHome.tsx';
import { Here } from './Here.tsx';
import { Notations } from './Notations.tsx';

const words = text.danger.emergency;

export function Emergency(): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const card = emergencyCardFor(stand, useGroup()?.block);
  const contacts = card?.contacts === undefined ? undefined : engine.sealedText(card.contacts);
  const pairs: readonly (readonly [string, string | undefined])[] = [
    [words.wayIn, card?.wayIn],
    [words.signal, card?.signal],
    [words.help, card?.nearestHelp],
    [words.contacts, card?.contacts === undefined ? undefined : (contacts ?? words.notHere)],
  ];
  return (
    <Frame title={words.title} without="emergency">
      {card === undefined ? (
        <p class="banner grave">{words.none}</p>
      ) : (
        <>
          {card.callFirst !== undefined && <CallFirst number={card.callFirst} />}
          <section class="sheet" aria-label={words.access}>
            <h2>{words.access}</h2>
            <Access at={placeOfCard(stand, card.accessPoint)} />
            <dl class="section">
              {pairs.map(([term, said]) =>
                said === undefined ? null : (
                  <div key={term}>
                    <dt class="soft small">{term}</dt>
                    <dd>{said}</dd>
                  </div>
                ),
              )}
            </dl>
          </section>
        </>
      )}
      <Here />
      <CallHome />
      <Unfold label={words.cautions}>
        <p>{cautions.lead}</p>
        <ul class="section">
          {cautions.points.map((point) => (
            <li key={point.text}>{point.text}</li>
          ))}
        </ul>
        <p>{cautions.end}</p>
      </Unfold>
    </Frame>
  );
}

type Stand = Parameters<typeof locate>[0];
type Located = Parameters<ReturnType<typeof locate>['resolve']>[0];

/** Where the access point is, or why that cannot be told. */
function placeOfCard(stand: Stand, point: Located): LonLat | string {
  if (point === undefined) return words.noAccess;
  const found = locate(stand).resolve(point);
  return isUnresolved(found) ? found.why : found.at;
}

function Access({ at }: Readonly<{ at: LonLat | string }>): JSX.Element {
  return typeof at === 'string' ? <p>{at}</p> : <Notations at={at} />;
}

function CallFirst({ number }: Readonly<{ number: string }>): JSX.Element {
  const digits = number.replace(/[^\d+]/g, '');
  if (digits === '')
    return (
      <p class="tag-large">
        {words.call}: {number}
      </p>
    );
  return (
    <a class="act large full grave" href={`tel:${digits}`}>
      {words.callNow(number)}
    </a>
  );
}
