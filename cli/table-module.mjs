// The generated tables as the field page gets them: column by column, which packs better than row by row, and read
// when something in them is first asked for.
import { readFileSync } from 'node:fs';

/** @typedef {Readonly<Record<string, unknown>>} Row */
/** @typedef {readonly Row[] | readonly (readonly unknown[])[]} Rows */

export const tableFile = /\.gen\.json$/;

/** Why a reference system is refused fills half of its table; the page says of those that they are not known here. */
const leftOut = new Set(['refused']);

const unfold = `const unfold = ({ names, columns }) => columns[0].map((_, at) =>
  names ? Object.fromEntries(names.map((name, index) => [name, columns[index][at]])) : columns.map((column) => column[at]));`;

/**
 * The table as a module with the same default export.
 * @param {string} path
 */
export function tableModule(path) {
  const table = /** @type {Record<string, unknown>} */ (JSON.parse(readFileSync(path, 'utf8')));
  const members = Object.entries(table).map(([name, value]) => {
    if (leftOut.has(name)) return `${name}: []`;
    if (!isRows(value)) return `${name}: ${JSON.stringify(value)}`;
    return `get ${name}() { return (read.${name} ??= unfold(JSON.parse(${quoted(JSON.stringify(folded(value)))}))); }`;
  });
  return `const read = {};\n${unfold}\nexport default { ${members.join(',\n')} };\n`;
}

/**
 * @param {unknown} value
 * @returns {value is Rows} whether these are many rows of the same make
 */
function isRows(value) {
  if (!Array.isArray(value) || value.length < 2) return false;
  const rows = /** @type {unknown[]} */ (value);
  const makes = new Set(
    rows.map((row) => (row !== null && typeof row === 'object' ? Object.keys(row).join() : '')),
  );
  return makes.size === 1 && !makes.has('');
}

/** @param {Rows} rows */
function folded(rows) {
  const names = Object.keys(rows[0] ?? {});
  const columns = names.map((name) => rows.map((row) => /** @type {Row} */ (row)[name]));
  return Array.isArray(rows[0]) ? { columns } : { names, columns };
}

/**
 * A text of JSON as a literal, without a backslash before every quotation mark.
 * @param {string} json
 */
function quoted(json) {
  return `'${json.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
