// What a page of the map consists of, before it is known whether it becomes SVG or PDF. Millimetres from the upper left
// corner; black, white and one light tone, so that a print in black and white says all.
import type { Point } from '../../felling/index.ts';
import type { Weight } from './letters.ts';

/** From black to white. */
export type Tone = 0 | 0.6 | 0.92 | 1;

export function toneAsHex(tone: Tone): string {
  const part = Math.round(tone * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${part}${part}${part}`;
}

/** What is not said is not drawn. */
export type Look = Readonly<{ fill?: Tone; stroke?: Tone; width?: number; dash?: readonly number[] }>;

/** An outline in the commands of SVG paths (SVG 1.1, section 8.3), which PDF libraries read too. */
export type Path = Readonly<{ is: 'path'; d: string }> & Look;
export type Disc = Readonly<{ is: 'disc'; at: Point; radius: number }> & Look;
export type Text = Readonly<{
  is: 'text';
  text: string;
  /** Where its baseline begins, or its middle. */
  at: Point;
  size: number;
  weight: Weight;
  tone: Tone;
  anchor: 'start' | 'middle';
  /** A rim of paper round the letters, so that they can be read on lines. */
  rim: boolean;
}>;

/** Width of the line that makes such a rim, half of it outside of the letters. */
export const RIM = 0.9;

/** Shapes that belong together. */
export type Group = Readonly<{
  is: 'group';
  shapes: readonly Shape[];
  /** What it shows, for whoever reads the file. */
  shows?: string;
  label?: string;
  /** Read aloud, and shown where somebody points at it. */
  title?: string;
  /** Of the scale: 1 : scale. */
  scale?: number;
  /** What is drawn stays inside of this path. */
  within?: string;
  /** Its place in the document, for those who have it read to them. */
  part?: 'heading' | 'words' | 'figure' | 'table' | 'row' | 'head' | 'cell';
}>;

export type Shape = Path | Disc | Text | Group;

export function path(d: string, look: Look): Path {
  return { is: 'path', d, ...look };
}

export function disc(at: Point, radius: number, look: Look): Disc {
  return { is: 'disc', at, radius, ...look };
}

export function text(
  words: string,
  at: Point,
  { size = SMALL, weight = 'regular', tone = 0, anchor = 'start', rim = false }: Partial<Text> = {},
): Text {
  return { is: 'text', text: words, at, size, weight, tone, anchor, rim };
}

export function group(shapes: readonly Shape[], says: Omit<Group, 'is' | 'shapes'> = {}): Group {
  return { is: 'group', shapes, ...says };
}

/** A rectangle as a path. */
export function rectangle(left: number, top: number, width: number, height: number): string {
  return `M${mm(left)} ${mm(top)}h${mm(width)}v${mm(height)}h${mm(-width)}Z`;
}

/** A path through places. */
export function through(points: readonly Point[]): string {
  return points.map((one, index) => `${index === 0 ? 'M' : 'L'}${xy(one)}`).join('');
}

export function xy({ x, y }: Point): string {
  return `${mm(x)} ${mm(y)}`;
}

/** A length as it is written into the file: hundredths are finer than any printer. */
export function mm(value: number): number {
  return Math.round(value * 100) / 100;
}

/** 7 pt and 9 pt: nothing that is to be read is smaller. One point is 25.4 / 72 mm. */
export const SMALL = (7 * 25.4) / 72;
export const LARGE = (9 * 25.4) / 72;

/** One page: how large it is, what it is called, what it shows. */
export type Page = Readonly<{
  width: number;
  height: number;
  title: string;
  description: string;
  /** Of the plan that it shows, RFC 3339. */
  when: string;
  /** In which unit the paper is sold. */
  paper: 'mm' | 'in';
  shapes: readonly Shape[];
}>;
