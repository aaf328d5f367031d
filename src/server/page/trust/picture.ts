// Drawings for the guide: a phone, what stands on its screen, and a ring round what is to be tapped. Drawn by us, as
// plain as a sketch on paper; no phone looks exactly like that.
import { html, type Piece } from '../../../reports/index.ts';

export type Line = Readonly<{
  text: string;
  /** How the line is drawn; a plain row when left out. */
  as?: 'button' | 'switch' | 'warning' | 'code' | 'words' | 'address';
  /** Ringed: this is to be tapped, or looked at. */
  ringed?: true;
}>;

const width = 230;
const left = 18;
const right = width - left;
const lineHeight = 40;

/**
 * A phone with a heading and lines below it.
 * @param said what the drawing shows, for those who cannot see it
 */
export function phonePicture(said: string, heading: string, lines: readonly Line[]): Piece {
  const height = 92 + lines.length * lineHeight;
  return html`<svg class="phone" role="img" aria-label="${said}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">
    <rect class="body" x="3" y="3" width="${width - 6}" height="${height - 6}" rx="20"/>
    <path class="thin" d="M${width / 2 - 22} 16h44"/>
    <text class="heading" x="${left}" y="50">${heading}</text>
    <path class="thin" d="M${left} 62H${right}"/>
    ${lines.map((line, index) => drawLine(line, 66 + index * lineHeight))}
  </svg>`;
}

function drawLine(line: Line, top: number): Piece {
  const middle = top + lineHeight / 2;
  return html`${drawn(line, middle)}${line.ringed && ring(middle)}`;
}

function drawn({ text, as }: Line, middle: number): Piece {
  const words = (x: number, kind: string, anchor = 'start') =>
    html`<text class="${kind}" x="${x}" y="${middle + 5}" text-anchor="${anchor}">${text}</text>`;
  switch (as) {
    case 'button':
      return html`<rect class="button" x="${left + 8}" y="${middle - 14}" width="${right - left - 16}" height="28" rx="6"/>
        ${words(width / 2, 'on-button', 'middle')}`;
    case 'switch':
      return html`${words(left + 6, 'row')}<rect class="button" x="${right - 44}" y="${middle - 10}" width="38" height="20" rx="10"/>
        <circle class="knob" cx="${right - 16}" cy="${middle}" r="7"/>`;
    case 'warning':
      return html`<path class="sign" d="M${left + 16} ${middle - 12}l13 23h-26z"/><path class="thin" d="M${left + 16} ${middle - 4}v7m0 3v1"/>
        ${words(left + 38, 'row')}`;
    case 'code':
      return words(left + 6, 'code');
    case 'words':
      return words(left + 6, 'row soft');
    case 'address':
      return html`<rect class="field" x="${left}" y="${middle - 14}" width="${right - left}" height="28" rx="14"/>
        ${words(left + 14, 'code')}`;
    default:
      return html`${words(left + 6, 'row')}<path class="thin" d="M${right - 14} ${middle - 5}l6 5-6 5M${left} ${middle + 20}H${right}"/>`;
  }
}

/** As somebody would ring it with a paint stick: not quite closed. */
function ring(middle: number): Piece {
  const [from, to] = [left - 7, right + 7];
  return html`<path class="ring" d="M${from + 30} ${middle - 17}C${from - 8} ${middle - 18} ${from - 4} ${middle + 18} ${from + 34} ${middle + 18}H${to - 30}C${to + 8} ${middle + 17} ${to + 5} ${middle - 19} ${to - 36} ${middle - 18}L${from + 48} ${middle - 21}"/>`;
}
