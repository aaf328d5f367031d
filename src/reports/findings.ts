// Findings as rows: those about the woods one by one, those about the record counted by code.
import { type Finding, type FindingCode, findingCodes, isAboutRecord, words } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { FindingCount, FindingRow } from './model.ts';

/** How many findings of one code are written out before the rest is only counted. */
const firstFew = 5;

export function woodsFindings(context: Context, findings: readonly Finding[]): FindingRow[] {
  const rows = findings.filter((finding) => !isAboutRecord(finding)).map((finding) => row(context, finding));
  return [
    ...rows.filter(({ state }) => state === 'open'),
    ...rows.filter(({ state }) => state === 'settled'),
  ];
}

function row(context: Context, { code, sentence, remedy, settled, entries }: Finding): FindingRow {
  const settledBy =
    settled !== undefined && context.folded.entries.has(settled) ? context.number(settled) : undefined;
  return {
    code,
    sentence,
    remedy,
    state: settled === undefined ? 'open' : 'settled',
    ...(settledBy === undefined ? {} : { settledBy }),
    entries: context.numbers(entries),
  };
}

export function recordFindings(context: Context, findings: readonly Finding[]): FindingCount[] {
  const byCode = new Map<FindingCode, Finding[]>();
  for (const finding of findings.filter(isAboutRecord)) {
    const same = byCode.get(finding.code);
    if (same) same.push(finding);
    else byCode.set(finding.code, [finding]);
  }
  return findingCodes.flatMap((code) => {
    const same = byCode.get(code);
    const first = same?.[0];
    if (same === undefined || first === undefined) return [];
    return [
      {
        code,
        title: words(code),
        remedy: first.remedy,
        count: same.length,
        first: same
          .slice(0, firstFew)
          .map(({ sentence, entries }) => known(sentence, context.numbers(entries))),
      },
    ];
  });
}
