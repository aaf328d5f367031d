// Which DBH a stem has: what was measured wins; then what its stump tells, as it was felled or audited.
// 15.5 in inside bark, 8 in up, general hardwood: 15.5 / (0.91979 + 0.12152 × (4.5 − 2/3) / (5/3)) = 12.924 in; 17 in
// outside bark: 17 / (1 + 0.12766 × 2.3) = 13.141 in. Computed by hand from the form and coefficients of reference 4.
import { expect, it } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import { dbhOf } from '../../../src/stand/figures/dbh.ts';
import { fold } from '../../../src/stand/index.ts';
import { type Line, stem, written } from '../group-story.ts';

const inches = (value: string) => ({ text: `${value} in`, value, unit: 'in' });
const felled = (more: JsonObject = {}): Line => ['stem-felled', { stem, came: 'down', ...more }];
const audited = (more: JsonObject): Line => ['stump-audited', { stem, ...more }];
const fromFelling = felled({ stumpDiameter: inches('15.5'), stumpHeight: inches('8') });

it.each<[string, Line[], { inches: number; from: 'measured' | 'stump' } | undefined]>([
  ['nothing measured: none', [felled()], undefined],
  [
    'measured before it was felled',
    [['stem-measured', { stem, dbh: inches('13') }], fromFelling],
    { inches: 13, from: 'measured' },
  ],
  ['the stump at the felling', [fromFelling], { inches: 12.924, from: 'stump' }],
  [
    'the stump at the felling without its height: none',
    [felled({ stumpDiameter: inches('15.5') })],
    undefined,
  ],
  [
    'the audited stump, inside bark before outside',
    [
      felled(),
      audited({ diameterOutside: inches('17'), diameterInside: inches('15.5'), height: inches('8') }),
    ],
    { inches: 12.924, from: 'stump' },
  ],
  [
    'the audited stump, outside bark',
    [felled(), audited({ diameterOutside: inches('17'), height: inches('8') })],
    { inches: 13.141, from: 'stump' },
  ],
  [
    'the audited stump without its height: none',
    [felled(), audited({ diameterInside: inches('15.5') })],
    undefined,
  ],
  [
    'the felling had the diameter and not the height; the audit has both',
    [
      felled({ stumpDiameter: inches('20') }),
      audited({ diameterInside: inches('15.5'), height: inches('8') }),
    ],
    { inches: 12.924, from: 'stump' },
  ],
])('%s', (_, lines, expected) => {
  const found = fold(written(...lines)).stand.stems.get(stem);
  const dbh = found && dbhOf(found);
  expect(dbh?.from).toBe(expected?.from);
  if (expected) expect(dbh?.inches).toBeCloseTo(expected.inches, 2);
});
