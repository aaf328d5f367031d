// One place in the ways that people read it out over a telephone.
import type { JSX } from 'preact';
import { decimalDegrees, degreesMinutes, type LonLat } from '../../../../place/index.ts';
import { text } from '../../text/index.ts';

const words = text.danger.emergency;

export function Notations({ at }: Readonly<{ at: LonLat }>): JSX.Element {
  const notations: readonly [string, string][] = [
    [words.degrees, decimalDegrees(at)],
    [words.minutes, degreesMinutes(at)],
  ];
  return (
    <dl class="section">
      {notations.map(([called, written]) => (
        <div key={called}>
          <dt class="soft small">{called}</dt>
          {written.split(', ').map((half) => (
            <dd class="where" key={half}>
              {half}
            </dd>
          ))}
        </div>
      ))}
    </dl>
  );
}
