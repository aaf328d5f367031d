// A page as SVG 1.1, sized in millimetres or inches for a printer. Nothing in it is loaded or run.
import { type Piece, html as xml } from '../html/markup.ts';
import { textWidth } from './letters.ts';
import {
  type Group,
  type Look,
  mm,
  type Page,
  type Path,
  RIM,
  type Shape,
  type Text,
  toneAsHex,
} from './shapes.ts';

/** The page as a file of its own. */
export function svgFile(page: Page): string {
  const { width, height, paper } = page;
  const size = (value: number) => (paper === 'mm' ? `${mm(value)}mm` : `${value / 25.4}in`);
  return xml`<?xml version="1.0" encoding="UTF-8"?>
${svg(
  page,
  xml` width="${size(width)}" height="${size(height)}"`,
  xml`<style>@page { size: ${size(width)} ${size(height)}; margin: 0 }</style>
`,
)}
`.toString();
}

/** The page as a part of a page of HTML, as wide as there is room. Ids begin with "map-". */
export function svgPart(page: Page): Piece {
  return svg(page, xml``, xml``);
}

function svg(page: Page, size: Piece, style: Piece): Piece {
  const { width, height, title, description, shapes } = page;
  const clips = new Map<string, string>();
  const drawn = shapes.map((shape) => piece(shape, clips));
  return xml`<svg xmlns="http://www.w3.org/2000/svg"${size} viewBox="0 0 ${mm(width)} ${mm(height)}" role="img" aria-labelledby="map-title map-description" font-family="Arial, Helvetica, Arimo, 'Liberation Sans', sans-serif">
<title id="map-title">${title}</title>
<desc id="map-description">${description}</desc>
${style}<defs>${[...clips].map(([d, id]) => xml`<clipPath id="${id}"><path d="${d}"/></clipPath>`)}</defs>
<rect width="${mm(width)}" height="${mm(height)}" fill="#fff"/>
${drawn}</svg>`;
}

function piece(shape: Shape, clips: Map<string, string>): Piece {
  switch (shape.is) {
    case 'path':
      return outline(shape);
    case 'disc':
      return xml`<circle cx="${mm(shape.at.x)}" cy="${mm(shape.at.y)}" r="${mm(shape.radius)}"${look(shape)}/>
`;
    case 'text':
      return letters(shape);
    case 'group':
      return xml`<g${says(shape, clips)}>${shape.title !== undefined && xml`<title>${shape.title}</title>`}
${shape.shapes.map((one) => piece(one, clips))}</g>
`;
  }
}

function outline(shape: Path): Piece {
  return xml`<path d="${shape.d}"${look(shape)}/>
`;
}

/** The width is told, so that a program that shows another face keeps what is beside it. */
function letters({ text, at, size, weight, tone, anchor, rim }: Text): Piece {
  return xml`<text x="${mm(at.x)}" y="${mm(at.y)}" font-size="${mm(size)}" textLength="${mm(textWidth(text, size, weight))}" lengthAdjust="spacingAndGlyphs"${
    weight === 'bold' && xml` font-weight="bold"`
  }${anchor === 'middle' && xml` text-anchor="middle"`} fill="${toneAsHex(tone)}"${
    rim && xml` stroke="#fff" stroke-width="${RIM}" stroke-linejoin="round" paint-order="stroke"`
  }>${text}</text>
`;
}

function says({ shows, label, scale, within }: Group, clips: Map<string, string>): Piece {
  return xml`${shows !== undefined && xml` data-is="${shows}"`}${label !== undefined && xml` data-label="${label}"`}${
    scale !== undefined && xml` data-scale="${scale}"`
  }${within !== undefined && xml` clip-path="url(#${clipOf(within, clips)})"`}`;
}

function clipOf(d: string, clips: Map<string, string>): string {
  const id = clips.get(d) ?? `map-clip-${clips.size + 1}`;
  clips.set(d, id);
  return id;
}

function look({ fill, stroke, width, dash }: Look): Piece {
  return xml` fill="${fill === undefined ? 'none' : toneAsHex(fill)}"${
    stroke !== undefined && xml` stroke="${toneAsHex(stroke)}" stroke-width="${mm(width ?? 0.2)}"`
  }${dash !== undefined && xml` stroke-dasharray="${dash.join(' ')}"`}`;
}
