// Which species of the national plant symbols Honer's equation has coefficients for, by the names it has them under.
import type { SpeciesEntered } from '../../events/index.ts';

const names: Readonly<Record<string, string>> = {
  PIST: 'white pine',
  PIRE: 'red pine',
  PIBA2: 'jack pine',
  PIGL: 'white spruce',
  PIMA: 'black spruce',
  PIRU: 'red spruce',
  ABBA: 'balsam fir',
  TSCA: 'hemlock',
  THOC2: 'white cedar',
  ACSA3: 'sugar maple',
  BEAL2: 'yellow birch',
  BEPA: 'white birch',
  QURU: 'red oak',
  FAGR: 'beech',
  TIAM: 'basswood',
  POTR5: 'trembling aspen',
};

/** The name under which the equation has coefficients for a species of the shipped list; undefined for any other. */
export function honerName({ list, code }: SpeciesEntered): string | undefined {
  return list === 'us' && Object.hasOwn(names, code) ? names[code] : undefined;
}
