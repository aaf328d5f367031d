// figures: what somebody wants computed, as typed -> the figures of the stand, or what is wrong with the asking. One
// reader for the command line and the server.
import {
  bufferFigures,
  buttFigures,
  columnNames,
  damageFigures,
  decayComparison,
  type FigureKind,
  type Figures,
  type Folded,
  groupLabel,
  lineFigures,
  logFigures,
  movedFigures,
  openingFigures,
  regenerationFigures,
  sampleFigures,
  standFigures,
  stemLabel,
  stumpFigures,
  sunFigures,
  type TableAsked,
  traverseFigures,
  valueFigures,
  volumeFigures,
  zonesFigures,
} from '../../stand/index.ts';
import { readClasses } from './classes.ts';
import { readSinceSize, readTraverse, readZones } from './ground.ts';
import { readLogAsked } from './log.ts';
import { readButt, readCount, readMethod, readWithin, readWound } from './methods.ts';
import { readBuffers, readPeriod } from './openings.ts';
import { readId, readScope } from './scope.ts';
import { type FiguresTyped, type Read, wrong } from './typed.ts';

export { readMethod } from './methods.ts';
export type { FiguresTyped } from './typed.ts';

/** What is typed of a log. */
const log = ['rule', 'units', 'smallEnd', 'largeEnd', 'length', 'trim', 'taper'] as const;

/** Which of the typed words mean something to which figures; another one is refused, not left unheard. */
const heard: Readonly<Record<FigureKind, readonly (keyof FiguresTyped)[]>> = {
  stand: ['by', 'classes', 'block', 'group', 'since', 'floor', 'units', 'around', 'radius'],
  volume: ['block', 'group', 'since', 'floor', 'around', 'radius', 'rule', 'formClass', 'form', 'equation'],
  decay: ['group', 'units'],
  log: [...log, 'middle', 'half', 'defects'],
  butt: [...log, 'stem', 'priceWithCull', 'priceJumpButted', 'product', 'grade', 'gradeJumpButted', 'buyers'],
  value: ['block', 'group', 'since', 'floor', 'rule', 'formClass', 'form', 'equation', 'stems', 'buyers'],
  stumps: ['group', 'units'],
  plots: ['units', 'rule', 'formClass', 'form', 'equation'],
  regeneration: ['group', 'block', 'units', 'stockedFrom'],
  damage: ['block', 'limit', 'within'],
  traverse: ['legs', 'adjust', 'units'],
  moved: ['sinceSize', 'units'],
  zones: ['block', 'point', 'zone'],
  openings: ['group', 'block', 'units', 'period'],
  lines: ['block', 'units'],
  buffers: ['feature', 'width', 'perPercent', 'above', 'along', 'units'],
  sun: ['group', 'units'],
};

/**
 * Computes what is asked for.
 * @param now RFC 3339; what "today" means
 */
export function readFigures(
  what: FigureKind,
  folded: Folded,
  typed: FiguresTyped,
  now: string,
): Read<Figures> {
  for (const [field, text] of Object.entries(typed) as [keyof FiguresTyped, string | undefined][]) {
    if (text !== undefined && !heard[what].includes(field))
      return wrong(field, text, `it means nothing to figures of the ${what}; leave it out`);
  }
  return readers[what](folded, typed, now);
}

type Reader = (folded: Folded, typed: FiguresTyped, now: string) => Read<Figures>;

const rows = ['class', 'species', 'group'] as const;

const readers: Readonly<Record<FigureKind, Reader>> = {
  openings: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const period = readPeriod(typed.period);
    if (!period.ok) return period;
    const { system, group, block } = scope.value;
    const asked = {
      system,
      ...(group === undefined ? {} : { group }),
      ...(block === undefined ? {} : { block }),
    };
    const figures = openingFigures(folded, { ...asked, period: period.value });
    return { ok: true, value: { what: 'openings', figures } };
  },
  lines: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const { system, block } = scope.value;
    return { ok: true, value: { what: 'lines', system, figures: lineFigures(folded, block) } };
  },
  buffers: (folded, typed, now) => {
    const scope = readScope(folded.stand, { units: typed.units }, now);
    if (!scope.ok) return scope;
    const asked = readBuffers(typed);
    if (!asked.ok) return asked;
    const { system } = scope.value;
    return { ok: true, value: { what: 'buffers', system, figures: bufferFigures(folded, asked.value) } };
  },
  sun: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const group = folded.stand.groups.get(scope.value.group ?? '');
    if (group === undefined) return wrong('group', typed.group, "say which group's opening");
    const figures = sunFigures(folded, group, Number(now.slice(0, 4)));
    return { ok: true, value: { what: 'sun', system: scope.value.system, figures } };
  },
  traverse: (folded, typed, now) => {
    const asked = readTraverse(folded, typed, now);
    return asked.ok
      ? { ok: true, value: { what: 'traverse', figures: traverseFigures(asked.value) } }
      : asked;
  },
  moved: (folded, typed, now) => {
    const scope = readScope(folded.stand, { units: typed.units }, now);
    if (!scope.ok) return scope;
    const size = readSinceSize(folded, typed);
    if (!size.ok) return size;
    const { system } = scope.value;
    return { ok: true, value: { what: 'moved', system, figures: movedFigures(folded, size.value) } };
  },
  zones: (folded, typed) => {
    const asked = readZones(folded, typed);
    return asked.ok ? { ok: true, value: { what: 'zones', figures: zonesFigures(asked.value) } } : asked;
  },
  stand: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const by = rows.find((row) => row === (typed.by ?? 'class'));
    if (by === undefined) return wrong('by', typed.by, `write one of ${rows.join(', ')}`);
    const classes = readClasses(typed.classes);
    if (!classes.ok) return classes;
    const asked: TableAsked = { ...scope.value, by, ...(classes.value && { classes: classes.value }) };
    return { ok: true, value: { what: 'stand', figures: standFigures(folded, asked) } };
  },
  volume: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const method = readMethod(typed);
    if (!method.ok) return method;
    const figures = volumeFigures(folded, { ...scope.value, method: method.value });
    return { ok: true, value: { what: 'volume', figures } };
  },
  decay: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const { group, system } = scope.value;
    if (group === undefined)
      return wrong('group', typed.group, 'say which group is held against the other stumps');
    const label = groupLabel(folded.stand.groups.get(group));
    return { ok: true, value: { what: 'decay', label, figures: decayComparison(folded, group, system) } };
  },
  log: (folded, typed, now) => {
    const scope = readScope(folded.stand, { units: typed.units }, now);
    if (!scope.ok) return scope;
    const asked = readLogAsked(typed, scope.value.system);
    return asked.ok ? { ok: true, value: { what: 'log', figures: logFigures(asked.value) } } : asked;
  },
  butt: (folded, typed, now) => {
    const id = readId(folded.stand, 'stem', typed.stem ?? '', folded.entries);
    if (!id.ok) return typed.stem === undefined ? wrong('stem', undefined, 'say which stem, by its tag') : id;
    const scope = readScope(folded.stand, { units: typed.units }, now);
    if (!scope.ok) return scope;
    const butt = readButt(typed, scope.value.system);
    if (!butt.ok) return butt;
    const { log, scaling, price } = butt.value;
    const figures = buttFigures(folded, id.value, log, scaling, price);
    return { ok: true, value: { what: 'butt', label: stemLabel(folded.stand.stems.get(id.value)), figures } };
  },
  value: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const method = readMethod(typed);
    if (!method.ok) return method;
    const column = columnNames.find((name) => name === (typed.stems ?? 'removed'));
    if (column === undefined) return wrong('stems', typed.stems, `write one of ${columnNames.join(', ')}`);
    const { buyers } = typed;
    const asked = { ...scope.value, method: method.value, column };
    const figures = valueFigures(folded, buyers === undefined ? asked : { ...asked, buyerClass: buyers });
    return { ok: true, value: { what: 'value', figures } };
  },
  stumps: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    return { ok: true, value: { what: 'stumps', figures: stumpFigures(folded, scope.value) } };
  },
  plots: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const { system } = scope.value;
    // A method is read where anything of it was typed: without one there is no volume, and that is no mistake.
    const { rule, formClass, form, equation } = typed;
    if ([rule, formClass, form, equation].every((text) => text === undefined))
      return { ok: true, value: { what: 'plots', figures: sampleFigures(folded, { system }) } };
    const method = readMethod(typed);
    if (!method.ok) return method;
    const figures = sampleFigures(folded, { system, method: method.value });
    return { ok: true, value: { what: 'plots', figures } };
  },
  regeneration: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const { group, block, system } = scope.value;
    if ((group === undefined) === (block === undefined))
      return wrong('group', typed.group, 'say which group or which block, one of them');
    const stockedFrom = readCount(typed.stockedFrom);
    if (!stockedFrom.ok) return stockedFrom;
    const asked = {
      system,
      ...(group === undefined ? {} : { group }),
      ...(block === undefined ? {} : { block }),
    };
    const figures = regenerationFigures(folded, { ...asked, stockedFrom: stockedFrom.value });
    const { groups, blocks } = folded.stand;
    const label = group === undefined ? (blocks.get(block ?? '')?.name ?? '') : groupLabel(groups.get(group));
    return { ok: true, value: { what: 'regeneration', label, figures } };
  },
  damage: (folded, typed, now) => {
    const scope = readScope(folded.stand, typed, now);
    if (!scope.ok) return scope;
    const limit = readWound(typed.limit);
    if (!limit.ok) return limit;
    const within = readWithin(typed.within);
    if (!within.ok) return within;
    const { block } = scope.value;
    const asked = { limit: limit.value, within: within.value };
    const figures = damageFigures(folded, { ...asked, ...(block === undefined ? {} : { block }) });
    return { ok: true, value: { what: 'damage', figures } };
  },
};
