// Labels of groups, blocks and stakes. Like tags they are no identities: two things may carry one, and that
// is a finding.
import type { Happening } from '../entry.ts';
import type { About } from '../findings.ts';
import { said } from '../sentence.ts';
import type { Stand } from '../state.ts';
import { raise } from './scene.ts';

type Labelled = 'group' | 'block' | 'stake';

/** Puts a label on a thing and takes its earlier one off. */
export function giveLabel(
  stand: Stand,
  noun: Labelled,
  id: string,
  label: string,
  happening: Happening,
): void {
  const key = label.toLowerCase();
  const before = stand.labelled.get(id);
  if (before !== undefined) stand.labels.get(`${noun} ${before.label}`)?.delete(id);
  stand.labelled.set(id, { label: key, by: happening.entry.id });
  const carriers = stand.labels.get(`${noun} ${key}`) ?? new Set<string>();
  stand.labels.set(`${noun} ${key}`, carriers);
  const other = [...carriers].find((carrier) => carrier !== id);
  carriers.add(id);
  if (other === undefined || before?.label === key) return;
  const about: About = noun === 'group' ? { group: id } : {};
  raise(
    stand,
    happening,
    {
      code: 'label-used-twice',
      about,
      says: said`Two ${noun}s are called ${label}.`,
      remedy:
        'Amend the entry of one of them and give it another label, or strike it if it is the same thing recorded again.',
      twice: { one: id, other, label: key },
    },
    [stand.labelled.get(other)?.by].filter((entry) => entry !== undefined),
  );
}
