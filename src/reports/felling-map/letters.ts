// How wide text is, from the widths of the face that is embedded in PDF files and that most programs show for Arial.
import table from './letters.gen.json' with { type: 'json' };

export type Weight = 'regular' | 'bold';

/** A letter that the face lacks, in thousandths of the size of the type. */
const UNKNOWN = 600;

/** Which part of the face has a letter; undefined where none has it. */
export function partOf(letter: string, weight: Weight): number | undefined {
  const at = table[weight].findIndex((part) => Object.hasOwn(part, letter));
  return at < 0 ? undefined : at;
}

/** @param size of the type, in the unit of the answer */
export function textWidth(text: string, size: number, weight: Weight = 'regular'): number {
  let sum = 0;
  for (const letter of text) sum += widthOf(letter, weight);
  return (sum * size) / 1000;
}

function widthOf(letter: string, weight: Weight): number {
  const parts: readonly Readonly<Record<string, number>>[] = table[weight];
  for (const part of parts) if (Object.hasOwn(part, letter)) return part[letter] ?? UNKNOWN;
  return UNKNOWN;
}

/** Breaks words into lines that fit into a width, and a word that is wider than a line into parts. */
export function wrapped(text: string, width: number, size: number, weight: Weight = 'regular'): string[] {
  const lines: string[] = [];
  const fits = (words: string) => textWidth(words, size, weight) <= width;
  for (const word of text.split(/\s+/).flatMap((one) => (fits(one) ? [one] : inParts(one, fits)))) {
    const last = lines.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function inParts(word: string, fits: (part: string) => boolean): string[] {
  const parts: string[] = [];
  for (const letter of word) {
    const last = parts.at(-1);
    if (last !== undefined && fits(last + letter)) parts[parts.length - 1] = last + letter;
    else parts.push(letter);
  }
  return parts;
}

/** The beginning of a text that fits into a width, with dots where something was left out. */
export function cutTo(text: string, width: number, size: number, weight: Weight = 'regular'): string {
  if (textWidth(text, size, weight) <= width) return text;
  const [first = ''] = inParts(text, (part) => textWidth(`${part}…`, size, weight) <= width);
  return `${first}…`;
}
