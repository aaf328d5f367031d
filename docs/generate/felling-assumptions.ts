// docs/reference/felling-assumptions.md: every assumption of the felling model, from the list that the model uses.
import { ASSUMPTION_NAMES, ASSUMPTIONS, type Assumption } from '../../src/felling/index.ts';

/** One page. */
export function assumptionPages(): readonly Readonly<{ path: string; text: string }>[] {
  const rows = ASSUMPTION_NAMES.map((name) => {
    const { value, unit, least, most, basis, source, says }: Assumption = ASSUMPTIONS[name];
    return `| \`${name}\` | ${value} | ${unit} | ${least} to ${most} | ${source ?? basis} | ${says} |`;
  });
  const text = [
    '# Assumptions of the felling model',
    '',
    'Each can be set to another value within its range. Which ones differ from the default is printed with every plan. What a',
    '"guess" rests on is nothing but our own opinion; "common practice" has no source either. How they are used:',
    '[the felling model](../felling-model.md).',
    '',
    '| name | default | unit | range | rests on | what it is |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
  return [{ path: 'felling-assumptions.md', text }];
}
