// An adopted plan that cannot be worked out again here, as its entry has it: order, aims and room.
import type { JSX } from 'preact';
import { type Group, stemLabel } from '../../../../stand/index.ts';
import { planText } from '../../text/index.ts';
import { useField } from '../context.ts';
import { northAt } from './compared.ts';
import { byCompass } from './words.ts';

type Steps = NonNullable<Group['plan']>['body']['steps'];

export function AsAdopted({ steps, why }: Readonly<{ steps: Steps; why: string }>): JSX.Element {
  const { stand } = useField().state.folded;
  return (
    <>
      <p class="trouble">{planText.adoptedOnly(why)}</p>
      <ol class="section">
        {steps.map(({ stem, aim, left = '', right = '', hangUp }, at) => (
          <li key={stem}>
            {planText.inOrder(
              at + 1,
              stemLabel(stand.stems.get(stem)),
              byCompass(Number(aim.value), northAt(stand, stem)),
              Number(hangUp ?? 0),
            )}
            <p>
              {left !== '' && planText.side(Number(left), 'left', undefined)}
              {right !== '' && `; ${planText.side(Number(right), 'right', undefined)}`}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}
