// Taking a plan on: an entry like any other, kept here and sent when there is a signal.
import type { JSX } from 'preact';
import type { JsonValue } from '../../../../events/index.ts';
import { adoption } from '../../../../felling/index.ts';
import type { PlanAnswer } from '../../planner/index.ts';
import { planText } from '../../text/index.ts';
import { useField } from '../context.ts';
import type { Form } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { circumstancesOf } from './asking.ts';

type Asked = Readonly<{ form: Form; answer: PlanAnswer | undefined }>;

export function Adopt({ form, answer }: Asked): JSX.Element | null {
  const { entries } = useField().state.folded;
  if (!answer?.ok || answer.plan.falls.length === 0) return null;
  const { plan } = answer;
  // How much of the log is here: what waits on this phone has no place in it yet.
  const inTheLog = [...entries.values()].filter(({ position }) => position !== undefined).length;
  const adopt = () =>
    form.save({
      kind: 'felling-plan-adopted',
      fields: adoption(plan, inTheLog) as Readonly<Record<string, JsonValue>>,
      next: circumstancesOf(form.values),
    });
  return (
    <Act
      looks="large full"
      symbol="yes"
      under={planText.adoptUnder}
      disabled={form.busy}
      onTouch={() => void adopt()}
    >
      {planText.adopt}
    </Act>
  );
}
