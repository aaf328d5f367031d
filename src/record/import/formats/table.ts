// Tables: comma, semicolon or tab between the values, the first line with the headings. The delimiter is the one that the
// line of headings has most of.
import { CsvError, parse } from 'csv-parse/sync';
import { columnsOf, counting, ImportRefusal, type Item, limits, type Source } from '../source.ts';

const delimiters = { ',': 'CSV', ';': 'CSV with semicolons', '\t': 'TSV' } as const;
type Delimiter = keyof typeof delimiters;

/** @throws ImportRefusal for rows that are longer or shorter than the headings, and headings that are missing or repeated */
export function readTable(text: string): Source {
  const delimiter = delimiterOf(text);
  const rows = parsed(text, delimiter);
  const [headings, ...others] = rows;
  if (headings === undefined)
    throw new ImportRefusal('file', '', 'is empty; its first line should hold the headings');
  const columns = headings.record.map((heading) => heading.trim());
  checkHeadings(columns);
  const count = counting();
  const items = others.flatMap(({ record, info }): Item[] => {
    if (record.every((value) => value.trim() === '')) return [];
    count.item();
    const cells = columns.flatMap((column, index) => {
      const value = (record[index] ?? '').trim();
      return value === '' ? [] : [[column, value] as const];
    });
    return [{ where: `line ${info.lines}`, shape: 'row', vertices: [], cells: Object.fromEntries(cells) }];
  });
  return {
    format: delimiters[delimiter],
    crs: undefined,
    items,
    columns: items.length > 0 ? columns : columnsOf(items),
    passedOver: [],
  };
}

type Row = Readonly<{ record: readonly string[]; info: { lines: number } }>;

function parsed(text: string, delimiter: Delimiter): Row[] {
  try {
    return parse(text, {
      bom: true,
      delimiter,
      info: true,
      skip_empty_lines: true,
      max_record_size: limits.cellCharacters * 4,
    }) as unknown as Row[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const remedy = `cannot be read as a table: ${error.message.slice(0, 200)}`;
    throw new ImportRefusal('file', '', remedy);
  }
}

function checkHeadings(columns: readonly string[]): void {
  if (columns.length > limits.columns)
    throw new ImportRefusal(
      'file',
      '',
      `has more than ${limits.columns} columns; leave out those that are not needed`,
    );
  const empty = columns.indexOf('');
  // A column without heading that row numbers stand in is common; it is taken as it is when the others have names.
  if (columns.filter((column) => column === '').length > 1)
    throw new ImportRefusal(
      'file',
      '',
      `has no heading over column ${empty + 1}; the first line should hold the headings`,
    );
  const twice = columns.find((column, index) => columns.indexOf(column) !== index);
  if (twice !== undefined)
    throw new ImportRefusal('heading', twice, 'stands over two columns; give them different names');
}

function delimiterOf(text: string): Delimiter {
  const [first = ''] = text.replace(/^\uFEFF/, '').split(/\r?\n|\r/, 1);
  const bare = first.replaceAll(/"[^"]*"/g, '');
  const counts = (Object.keys(delimiters) as Delimiter[]).map(
    (delimiter) => [delimiter, bare.split(delimiter).length - 1] as const,
  );
  return counts.reduce((most, one) => (one[1] > most[1] ? one : most))[0];
}
