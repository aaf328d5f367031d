// gapledger sheet: a blank tally sheet to print.
import { renderTallySheet, usualColumns } from '../src/reports/index.ts';
import { exitCodes, Failure, say, sayJson, writeWhole } from './terminal/index.ts';

type Flags = { columns?: string[]; rows: string; units: string; out: string; json?: boolean };

export async function work(
  _words: string[],
  { columns, rows, units, out, json }: Flags,
  version: string,
): Promise<void> {
  if (units !== 'us' && units !== 'metric')
    throw new Failure(exitCodes.badInput, `--units "${units}": write us or metric.`);
  const lines = Number(rows);
  if (!Number.isInteger(lines) || lines < 5 || lines > 30)
    throw new Failure(
      exitCodes.badInput,
      `--rows "${rows}": write a whole number from 5 to 30; more do not fit on a page.`,
    );
  const wanted = columns ?? usualColumns[units];
  if (wanted.length > 14 || wanted.some((column) => column.trim() === '' || column.length > 40))
    throw new Failure(exitCodes.badInput, '--columns: write up to 14 headings of up to 40 letters.');
  writeWhole(out, renderTallySheet({ columns: wanted, rows: lines, program: `gapledger ${version}` }));
  if (json) sayJson({ path: out, columns: wanted, rows: lines });
  else say(`${out}: ${lines} lines with ${wanted.join(', ')}. Print it across the page.`);
}
