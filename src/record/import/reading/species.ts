// Species of a file. Codes of another list look like those of the shipped one and mean other trees, so a file in which
// only some can be read, or which mixes codes, numbers and names, is asked about as a whole.
import { readSpecies, type SpeciesEntered, speciesName } from '../../../events/index.ts';
import { amount, type Doubting } from '../doubt.ts';
import type { Cell } from './numbers.ts';

/** The species as the log keeps it; undefined where it is left out. */
export type SpeciesReader = (text: string) => SpeciesEntered | undefined;

/** @param list name of the person's own list, for codes that are not in the shipped one */
export function speciesReader(cells: readonly Cell[], list: string, doubts: Doubting): SpeciesReader {
  const texts = [...new Set(cells.map(({ text }) => text))];
  const known = new Map(
    texts.flatMap((text) => {
      const reading = readSpecies(text);
      return reading.ok ? [[text, reading.value] as const] : [];
    }),
  );
  const unknown = texts.filter((text) => !known.has(text));
  const own = (text: string): SpeciesEntered => ({ text, list, code: text.slice(0, 40) });
  if (unknown.length > 0) return unknownAsked({ cells, known, unknown, list, own }, doubts);
  const ways = new Set([...known].map(([text, entered]) => wayOf(text, entered)));
  if (ways.size > 1) {
    doubts.ask({
      code: 'species-mixed',
      sentence: `Species are written in several ways (${[...ways].join(', ')}): ${readAs(known)}.`,
      where: cells.map(({ where }) => where),
      choices: [{ answer: 'as-read', label: 'they are read rightly' }],
    });
  }
  return (text) => known.get(text);
}

type Asked = Readonly<{
  cells: readonly Cell[];
  known: ReadonlyMap<string, SpeciesEntered>;
  unknown: readonly string[];
  list: string;
  own: (text: string) => SpeciesEntered;
}>;

function unknownAsked({ cells, known, unknown, list, own }: Asked, doubts: Doubting): SpeciesReader {
  const strange = new Set(unknown);
  const where = cells.filter(({ text }) => strange.has(text)).map((cell) => cell.where);
  const some =
    known.size > 0 ? ` Others can be read, but may mean other trees than yours: ${readAs(known)}.` : '';
  const answer = doubts.ask({
    code: 'species',
    sentence: `${unknown.slice(0, 6).join(', ')}${unknown.length > 6 ? ' …' : ''} ${unknown.length === 1 ? 'is' : 'are'} not in the shipped list of species: ${amount(where, ['place', 'places'])}.${some}`,
    where,
    choices: [
      { answer: 'own-list', label: `all are codes of a list of your own: keep them as ${list}:CODE` },
      ...(known.size > 0
        ? [{ answer: 'own-unknown', label: `only the unknown ones are; the others are read rightly` }]
        : []),
      { answer: 'leave-out', label: 'leave the unknown ones out' },
    ],
  });
  if (answer === 'leave-out') return (text) => known.get(text);
  return answer === 'own-unknown' ? (text) => known.get(text) ?? own(text) : own;
}

function readAs(known: ReadonlyMap<string, SpeciesEntered>): string {
  const shown = [...known].slice(0, 5).map(([text, entered]) => `"${text}" as ${speciesName(entered)}`);
  return `${shown.join(', ')}${known.size > 5 ? ' …' : ''}`;
}

function wayOf(text: string, { list, code }: SpeciesEntered): string {
  if (list !== 'us') return `codes of "${list}"`;
  if (/^\d+$/.test(text)) return 'inventory numbers';
  return text.toUpperCase() === code ? 'symbols' : 'names';
}
