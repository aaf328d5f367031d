// Today: what can hurt, what stands, what is to be done.
import { figure } from '../format.ts';
import { plural } from './common.ts';

export const today = {
  title: 'Today',
  noGroup: 'No group in hand',
  noGroupHelp: 'Choose the group you work in, and stems are marked and counted for it.',
  noBlock: 'no block',
  change: 'Change',
  changeHeard: (label: string) => `Group in hand: ${label}. Change it.`,
  group: (label: string) => `Group ${label}`,
  openTitle: 'What is open',
  nothingOpen: 'Nothing is recorded as open. That does not say that nothing is there.',
  hungUp: (tag: string) => `${tag} hangs`,
  hungUpUnder: 'Keep out from under it. Touch when it is down.',
  hungIn: (tag: string) => `in ${tag}`,
  hazardUnder: 'Touch when it is gone.',
  unchecked: (count: number) =>
    `${figure(count)} ${plural(count, 'sapling or patch', 'saplings and patches')} not checked`,
  uncheckedUnder: 'Stems are down here. Go and look.',
  uncheckedNames: (names: string) => names,
  standing: 'What stands',
  cut: 'to be cut',
  leave: 'to stay',
  saplings: 'saplings',
  toCut: 'Still to be cut',
  toCutUnder: 'Touch one when it is down.',
  allToCut: (count: number) => `All ${figure(count)}`,
  mark: 'Mark',
  down: 'It is down',
  more: 'Other work',
  byThePlan: 'Felling plan',
  planNotHere:
    'The felling plan could not be loaded on this phone. Take an adopted plan for ended until you have seen it.',
  closed: 'This opening is closed.',
  chooseTitle: 'Group in hand',
  chooseLead: 'What you record from now on belongs to it.',
  counts: (standing: number, stems: number) =>
    `${figure(standing)} to be cut, ${figure(stems)} ${plural(stems, 'stem', 'stems')} in all`,
  none: 'Without a group',
  newGroup: 'Lay out a group here',
  newGroupLabel: 'What the group is called',
  newBlock: 'In which block',
  newBlockName: 'A block that is not in the list: its name',
  lay: 'Lay it out and take it in hand',
  moreTitle: 'Other work',
  inGroup: (label: string) => `In group ${label}`,
} as const;
