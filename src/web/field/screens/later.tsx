// The felling plan, loaded after everything else: the page has to be there first where there is one bar of signal. It is
// kept with the rest of the build, so that it is there in flight mode.
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { Group } from '../../../stand/index.ts';
import { text } from '../text/index.ts';
import type { Form } from './form.ts';
import { Frame } from './parts/Frame.tsx';

type Later = typeof import('./plan/index.ts');
let here: Later | undefined;
let coming: Promise<Later> | undefined;

/** What is loaded later, once it is here; `false` where it could not be loaded. */
export function useLater(): Later | false | undefined {
  const [later, setLater] = useState<Later | false | undefined>(here);
  useEffect(() => {
    coming ??= import('./plan/index.ts');
    coming
      .then((it) => {
        here = it;
      })
      .catch(() => {
        coming = undefined;
      })
      .finally(() => setLater(here ?? false));
  }, []);
  return later;
}

type About = Readonly<{ about: Readonly<Record<string, string>> }>;

export function Plan(asked: About): JSX.Element {
  const later = useLater();
  if (later) return <later.Plan {...asked} />;
  return (
    <Frame title={text.today.byThePlan}>
      <p class={later === false ? 'trouble' : 'soft'}>
        {later === false ? text.today.planNotHere : text.common.loading}
      </p>
    </Frame>
  );
}

export function NextByPlan({ group }: Readonly<{ group: Group | undefined }>): JSX.Element | null {
  const later = useLater();
  if (group === undefined) return null;
  if (later) return <later.NextByPlan group={group} />;
  return later === false && group.plan !== undefined ? <p class="trouble">{text.today.planNotHere}</p> : null;
}

/** The aim that a stem has in the plan, offered to the record of its fall. */
export function AimByPlan(asked: Readonly<{ stem: string; form: Form }>): JSX.Element | null {
  const later = useLater();
  return later ? <later.AimByPlan {...asked} /> : null;
}
