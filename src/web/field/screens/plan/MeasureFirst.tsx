// Which single measurement would change the plan most: worked out when somebody asks, for it takes longer than the plan.
import type { JSX } from 'preact';
import type { PlanSaid } from '../../../../felling/index.ts';
import { planText } from '../../text/index.ts';
import { useUnits } from '../context.ts';
import { Act } from '../parts/Act.tsx';
import { far } from './words.ts';

/** How many are shown. */
const MOST = 3;

export function MeasureFirst({
  plan,
  onMeasure,
}: Readonly<{ plan: PlanSaid; onMeasure: () => void }>): JSX.Element {
  const units = useUnits();
  const { measureFirst } = plan;
  if (measureFirst === undefined)
    return (
      <Act looks="quiet" under={planText.measure1stUnder} onTouch={onMeasure}>
        {planText.measure1st}
      </Act>
    );
  const { measurements, lookedAt } = measureFirst;
  return (
    <section class="section" aria-labelledby="plan-measure">
      <h2 id="plan-measure">{planText.measureFirst}</h2>
      {measurements.length === 0 && <p>{planText.measureNothing(lookedAt)}</p>}
      {measurements.slice(0, MOST).map((one) => {
        const { id, what, value, error } = one.what;
        const known = value === undefined ? '' : far(value, units, 1);
        return (
          <div key={`${id} ${what}`}>
            <p>
              <b>{planText.measureOne(one.what, known, far(error, units, 1))}</b>
            </p>
            <p>{planText.measureShows(one)}</p>
          </div>
        );
      })}
    </section>
  );
}
