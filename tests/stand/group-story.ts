// The story of one group from marking to closing, kept as it should be; tests tell it otherwise in places.
import type { EventType, JsonObject } from '../../src/events/index.ts';
import type { LogEntry } from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';

export const group = uuid(0x53_0001);
export const stem = uuid(0x51_0001);
export const other = uuid(0x51_0002);
export const leave = uuid(0x51_0003);
export const sapling = uuid(0x52_0001);
export const patch = uuid(0x54_0001);
export const hazard = uuid(0x55_0001);

export type Line = [EventType, JsonObject, Parameters<ReturnType<typeof pen>>[2]?];

/** Everything up to the closing, as it should be. */
export const work: Line[] = [
  ['group-laid-out', { group, label: 'G1' }],
  ['stem-marked', { stem, mark: 'cut', tag: 'A12', group }],
  ['stem-marked', { stem: leave, mark: 'leave', tag: 'L3', purpose: 'seed', group }],
  ['sapling-protected', { sapling, label: 's1', group }],
  ['patch-protected', { patch, label: 'p1', group }],
  ['hazard-noted', { hazard, what: 'hanging-limb', stem, group }],
  ['stem-felled', { stem, came: 'hung-up', hungOn: leave }],
  ['hang-up-cleared', { stem }],
  ['hazard-cleared', { hazard }],
  ['sapling-checked', { sapling, condition: 'unharmed' }],
  ['sapling-checked', { patch, condition: 'unharmed' }],
];
export const closing: Line = ['opening-closed', { group }];

export function written(...lines: Line[]): LogEntry[] {
  const write = pen();
  return lines.map((line) => write(...line));
}

/** The work without the lines that a test leaves out. */
export function without(...types: EventType[]): Line[] {
  return work.filter(([type]) => !types.includes(type));
}
