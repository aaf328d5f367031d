// A page as PDF: the same shapes, letters embedded, parts named for those who have it read to them. The same plan gives the
// same bytes: its day stands in the place of a clock.
import { unzlibSync } from 'fflate';
import PDFDocument from 'pdfkit';
import faces from './faces.gen.json' with { type: 'json' };
import { partOf, textWidth, type Weight } from './letters.ts';
import { type Group, type Look, type Page, RIM, type Shape, type Text, toneAsHex } from './shapes.ts';

/** Points in a millimetre. */
const POINT = 72 / 25.4;

type Paper = InstanceType<typeof PDFDocument>;
type Element = ReturnType<Paper['struct']>;

/** The page as a PDF file of one page. @param program printed nowhere, told among the properties of the file */
export async function pdfFile(page: Page, program: string): Promise<Uint8Array<ArrayBuffer>> {
  const { width, height, title, description, when, shapes } = page;
  const made = new Date(when);
  const paper = new PDFDocument({
    size: [width * POINT, height * POINT],
    margin: 0,
    // What packs differs between versions and machines; as it is, the file has the same bytes everywhere, and stays small.
    compress: false,
    pdfVersion: '1.7',
    tagged: true,
    lang: 'en',
    displayTitle: true,
    // The library takes the bytes of a face here too; its types know names only.
    font: face('regular', 0) as unknown as string,
    info: {
      Title: title,
      Subject: description,
      Creator: program,
      Producer: program,
      CreationDate: made,
      ModDate: made,
    },
  });
  for (const weight of ['regular', 'bold'] as const)
    for (const part of faces[weight].keys()) paper.registerFont(`${weight}-${part}`, face(weight, part));
  const chunks: Uint8Array[] = [];
  paper.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  const ended = new Promise((resolve) => paper.on('end', resolve));
  paper.scale(POINT);
  const whole = paper.struct('Document');
  paper.addStructure(whole);
  for (const shape of shapes) drawPart(paper, whole, shape, description);
  whole.end();
  paper.end();
  await ended;
  return joined(chunks);
}

const ELEMENTS: Readonly<Record<NonNullable<Group['part']>, string>> = {
  heading: 'H1',
  words: 'P',
  figure: 'Figure',
  table: 'Table',
  row: 'TR',
  head: 'TH',
  cell: 'TD',
};

/** What has a place in the document gets it, with what it holds. */
function drawPart(paper: Paper, parent: Element, shape: Shape, description: string): void {
  if (shape.is !== 'group' || !hasParts(shape)) {
    parent.add(() => draw(paper, shape));
    return;
  }
  const { part, shapes } = shape;
  if (part === undefined) {
    for (const one of shapes) drawPart(paper, parent, one, description);
    return;
  }
  const element = paper.struct(ELEMENTS[part], part === 'figure' ? { alt: description } : {});
  parent.add(element);
  if (shapes.some(hasParts)) for (const one of shapes) drawPart(paper, element, one, description);
  else element.add(() => draw(paper, shape));
  element.end();
}

function hasParts(shape: Shape): boolean {
  return shape.is === 'group' && (shape.part !== undefined || shape.shapes.some(hasParts));
}

function draw(paper: Paper, shape: Shape): void {
  switch (shape.is) {
    case 'path':
      paper.path(shape.d);
      paint(paper, shape);
      break;
    case 'disc':
      paper.circle(shape.at.x, shape.at.y, shape.radius);
      paint(paper, shape);
      break;
    case 'text':
      drawText(paper, shape);
      break;
    case 'group':
      paper.save();
      if (shape.within !== undefined) paper.path(shape.within).clip();
      for (const one of shape.shapes) draw(paper, one);
      paper.restore();
  }
}

function paint(paper: Paper, { fill, stroke, width = 0.2, dash }: Look): void {
  if (stroke !== undefined) {
    paper.lineWidth(width);
    if (dash === undefined) paper.undash();
    else dashed(paper, dash);
  }
  if (fill !== undefined && stroke !== undefined) paper.fillAndStroke(toneAsHex(fill), toneAsHex(stroke));
  else if (fill !== undefined) paper.fill(toneAsHex(fill));
  else if (stroke !== undefined) paper.stroke(toneAsHex(stroke));
}

/** The library takes a list of lengths, which its types do not say. */
function dashed(paper: Paper, lengths: readonly number[]): void {
  (paper as unknown as { dash: (lengths: readonly number[]) => void }).dash(lengths);
}

function drawText(paper: Paper, words: Text): void {
  const { tone, rim } = words;
  if (rim) {
    paper.lineWidth(RIM).lineJoin('round').undash().strokeColor(toneAsHex(1));
    drawRuns(paper, words, { stroke: true, fill: false });
  }
  paper.fillColor(toneAsHex(tone));
  drawRuns(paper, words, {});
}

/** Letters keep the widths of the table, so that text is as long as the page was set for. */
const AS_WIDE = { kern: false, liga: false } as unknown as [];

/** Letters are taken from the first part of the face that has them. */
function drawRuns(paper: Paper, { text, at, size, weight, anchor }: Text, how: object): void {
  let x = anchor === 'start' ? at.x : at.x - textWidth(text, size, weight) / 2;
  for (const { letters, part } of runsOf(text, weight)) {
    paper.font(`${weight}-${part}`).fontSize(size);
    paper.text(letters, x, at.y, { lineBreak: false, baseline: 'alphabetic', features: AS_WIDE, ...how });
    x += textWidth(letters, size, weight);
  }
}

function runsOf(text: string, weight: Weight): { letters: string; part: number }[] {
  const runs: { letters: string; part: number }[] = [];
  for (const letter of text) {
    const last = runs.at(-1);
    const part = partOf(letter, weight) ?? last?.part ?? 0;
    if (last?.part === part) last.letters += letter;
    else runs.push({ letters: letter, part });
  }
  return runs;
}

const unpacked = new Map<string, Uint8Array>();

/** A part of the face as TrueType. */
function face(weight: Weight, part: number): Uint8Array {
  const name = `${weight}-${part}`;
  const known = unpacked.get(name);
  if (known !== undefined) return known;
  const made = unzlibSync(Buffer.from(faces[weight][part] ?? '', 'base64'));
  unpacked.set(name, made);
  return made;
}

function joined(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
