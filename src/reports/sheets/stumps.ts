// Audited stumps, one by one.
import { isNotEnough } from '../../measure/index.ts';
import type { StumpFigures } from '../../stand/index.ts';
import { head, number, type Sheet, shown, wordy } from './model.ts';

export function stumpsSheet({ rows, remarks }: StumpFigures): Sheet {
  const title = 'Audited stumps';
  if (rows.length === 0)
    return { title, lead: ['No stump was audited ("stump audited").'], tables: [], remarks: [] };
  return {
    title,
    lead: [],
    tables: [
      {
        caption: 'Every audited stump',
        columns: [
          head('Stump'),
          wordy('Stem in the log'),
          wordy('Stump mark'),
          number('DBH from the stump'),
          number('DBH measured'),
        ],
        rows: rows.map(({ label, stem, markSeen, dbhFromStump, dbhMeasured }) => [
          label,
          stem === null ? 'none' : 'yes',
          markSeen === null ? 'not looked for' : markSeen ? 'seen' : 'not found',
          withUnit(dbhFromStump),
          withUnit(dbhMeasured),
        ]),
      },
    ],
    remarks,
  };
}

function withUnit(dbh: StumpFigures['rows'][number]['dbhFromStump'] | null): string {
  return dbh === null || isNotEnough(dbh) ? '–' : `${shown(dbh, 1)} ${dbh.unit}`;
}
