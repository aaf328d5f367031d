// Lists and rows as somebody types them: "white oak, 14.2 in; red maple, 8 in, height=52 ft", or JSON.
import { type Fields, type Form, isRequired } from './form.ts';
import { nearest } from './nearest.ts';

/** The typed values of one row by column, or what to put right. */
type Cells = { ok: true; cells: Readonly<Record<string, unknown>> } | { ok: false; remedy: string };

/** The values of a list as somebody typed them: with semicolons between them, or rows as JSON. */
export function partsOf(form: Form, text: string): readonly unknown[] {
  const json = form.is === 'row' && /^\s*[[{]/.test(text) ? readJson(text) : undefined;
  if (json !== undefined) return Array.isArray(json) ? (json as unknown[]) : [json];
  return text
    .split(';')
    .map((part) => part.trim())
    .filter(Boolean);
}

/** The cells of a row: from its text, or from an object that has them by the names of the columns. */
export function cellsOf(columns: Fields, given: unknown): Cells {
  if (typeof given === 'string') return cellsOfText(columns, given);
  if (typeof given !== 'object' || given === null || Array.isArray(given))
    return { ok: false, remedy: `give ${columnsInWords(columns)}` };
  const stranger = Object.keys(given).find((name) => !Object.hasOwn(columns, name));
  if (stranger !== undefined) return { ok: false, remedy: noSuchColumn(columns, stranger) };
  return { ok: true, cells: given as Readonly<Record<string, unknown>> };
}

/** A cell stands at the place of its column, or behind the column's name. An empty one is left out. */
function cellsOfText(columns: Fields, text: string): Cells {
  const names = Object.keys(columns);
  const cells: Record<string, string> = {};
  for (const [index, cell] of text.split(',').entries()) {
    const [, named, value] = /^\s*([a-zA-Z][a-zA-Z-]*)\s*=(.*)$/.exec(cell) ?? [];
    const name = named === undefined ? names[index] : columnNamed(columns, named);
    if (name === undefined) {
      const remedy =
        named === undefined
          ? `"${cell.trim()}" is one value too many; give ${columnsInWords(columns)}`
          : noSuchColumn(columns, named);
      return { ok: false, remedy };
    }
    const written = (value ?? cell).trim();
    if (written === '') continue;
    if (Object.hasOwn(cells, name)) return { ok: false, remedy: `"${name}" is given twice; give it once` };
    cells[name] = written;
  }
  return { ok: true, cells };
}

/** The column of that name, as it is stored (heightClass) or as a flag would be (height-class). */
function columnNamed(columns: Fields, named: string): string | undefined {
  const plain = (name: string) => name.replaceAll('-', '').toLowerCase();
  return Object.keys(columns).find((name) => plain(name) === plain(named));
}

function noSuchColumn(columns: Fields, name: string): string {
  const near = nearest(name, Object.keys(columns));
  return `there is no "${name}"; ${near === undefined ? `give ${columnsInWords(columns)}` : `did you mean ${near}?`}`;
}

/** "species, dbh (needed), height", in their order. */
function columnsInWords(columns: Fields): string {
  return Object.entries(columns)
    .map(([name, column]) => (isRequired(column) ? `${name} (needed)` : name))
    .join(', ');
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // It is then read as a row, and what is wrong with it is told.
    return undefined;
  }
}
