// The commands for what was written down elsewhere: files to be brought in, and the blank sheet to write on.
import { exitHelp } from '../terminal/failure.ts';
import type { Adding } from './adding.ts';

export function addImporting({ program, on, command }: Adding): void {
  on(
    command(
      'import <file>',
      'Bring in a GPX, KML, GeoJSON, shapefile, GeoPackage, CSV or TSV file; first with --dry-run.',
      [
        'import cruise.gpx --as stakes --dry-run',
        'import tally.csv --dry-run',
        'import census.csv --column "dbh=dbh_mm mm" --column tag=tag+stemTag --set mark=leave --crs EPSG:26917 --map census',
        'import next-year.csv --map census',
        'import streams.geojson --as features --set what=stream',
        'import edge.gpx --as edge --set group=G1 --answer day-month=month-first',
      ],
    )
      .option('--as <what>', 'what its things are: stems, stakes, notes, boundary, edge, features')
      .option('--dry-run', 'show what would be recorded and what is doubted; record nothing')
      .option('--answer <code=answer...>', 'answers a doubt, as it is proposed')
      .option(
        '--column <what=column...>',
        'which column is read as what, with the unit: "dbh=dbh_mm mm"; a+b joins two',
      )
      .option(
        '--set <field=value...>',
        'what holds for everything in the file: mark=leave, block="North cove"',
      )
      .option('--only <column=value...>', 'only rows that have this value')
      .option('--map <name>', 'read the columns as an earlier import of this name; or keep them by this name')
      .option('--crs <code>', 'system of the coordinates: EPSG:26917, or lonlat')
      .option('--layer <name>', 'which layer of a GeoPackage')
      .option('--own-list <name>', 'name of your own list of species codes', 'own')
      .option('--at <time>', 'when it happened, where the file does not say')
      .option('--by <person>', 'who did it; you if left out'),
    () => import('../import.ts'),
  );
  on(
    program
      .command('sheet')
      .description(
        'Write a blank tally sheet to print; what is typed from it is brought in without a mapping.',
      )
      .option('--columns <names...>', 'its columns, such as Tag Species "DBH (in)" Mark Note')
      .option('--rows <count>', 'lines on a page', '20')
      .option('--units <units>', 'us or metric, for the usual columns', 'us')
      .option('--out <file>', 'where to write it', 'tally-sheet.html')
      .option('--json', 'print JSON')
      .addHelpText(
        'after',
        `\nExamples:\n  gapledger sheet\n  gapledger sheet --units metric --out sheet.html\n  gapledger sheet --columns Tag Species "DBH (in)" Mark Reason --rows 16\n\n${exitHelp}`,
      ),
    () => import('../tally-sheet.ts'),
  );
}
