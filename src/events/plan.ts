// Felling plans that somebody took on, what they are computed with by default, and the wind that ends them. A plan itself can be
// computed again from the log as it was; what stands here is what was taken on, so that years later the cut can be held against it.
import {
  azimuth,
  count,
  decimalNumber,
  entryReference,
  label,
  reference,
  speed,
  text,
  yesNo,
} from './fields.ts';
import { many, optional, row } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Felling and stumps';

const assumption = () => label('Which number of the felling model, by its name there.', 'directionError');

const step = {
  stem: reference('stem', 'Which stem.', 'A12'),
  aim: azimuth('Where it is aimed.', '40 true'),
  left: optional(decimalNumber('Degrees to the left before something else is reached.', '6')),
  right: optional(decimalNumber('Degrees to the right before something else is reached.', '9')),
  hangUp: optional(decimalNumber('Chance of a hang-up in this place of the order, 0 to 1.', '0.08')),
  saplings: optional(decimalNumber('Saplings that it is expected to strike, by bole or crown.', '0.4')),
};

const assumed = {
  name: assumption(),
  value: decimalNumber('What it was taken as.', '8'),
  looser: optional(yesNo('Whether that lets the plan do more than the usual value does.')),
};

export const fellingPlanAdopted = defineKind({
  type: 'felling-plan-adopted',
  chapter,
  title: 'Felling plan adopted',
  help: 'A computed order of felling for a group that somebody took on; "gapledger plan GROUP --adopt" writes it. It ends when anything that it was computed from turns out otherwise.',
  fields: {
    group: reference('group', 'For which group.', 'G1'),
    plan: label(
      'SHA-256 of the plan in canonical form (RFC 8785), by which it is known again.',
      '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    ),
    model: label('Version of the felling model that computed it.', 'lay-1'),
    size: count('How many entries the log held when it was computed.', '120'),
    steps: many(
      row(step, 'The stems in the order of felling.', 'A12, 40 true, 6, 9, 0.08; A14, 95 true, 11, 20, 0.01'),
    ),
    aside: optional(many(reference('stem', 'Stems without an acceptable aim: they stay standing.', 'A13'))),
    restsOn: optional(many(entryReference('Entries that the plan was computed from.'))),
    wind: optional(decimalNumber('Mean wind that it was computed for, m/s; calm if left out.', '2')),
    assumed: optional(
      many(row(assumed, 'Numbers of the model that were not the usual ones.', 'directionError, 8, no')),
    ),
    note: optional(text('Why this one.', 'the wind comes from the west this week')),
  },
  example: {
    group: 'G1',
    plan: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    model: 'lay-1',
    size: '120',
    steps: 'A12, 40 true, 6, 9, 0.08',
  },
});

export const fellingDefaultSet = defineKind({
  type: 'felling-default-set',
  chapter,
  title: 'Felling default set',
  help: 'From now on the plans of one person are computed with this number of the felling model in place of the usual one. Plans that use it name the entry. To go back, strike it.',
  fields: {
    person: reference('person', 'Whose plans.', 'Ann Weaver'),
    assumption: assumption(),
    value: decimalNumber('What it is from now on.', '7.5'),
    belowFloor: optional(
      yesNo('That it is below the floor of the model is meant, and why is in the reason.'),
    ),
    reason: text('Why.', '18 lays measured since March'),
    restsOn: optional(
      many(entryReference('Entries that it rests on, such as the falls that were measured.')),
    ),
  },
  example: {
    person: 'Ann Weaver',
    assumption: 'directionError',
    value: '7.5',
    reason: '18 lays measured since March',
  },
});

export const windNoted = defineKind({
  type: 'wind-noted',
  chapter,
  title: 'Wind noted',
  help: 'How hard it blows. A felling plan that was computed for less wind ends with it.',
  fields: {
    wind: speed('Mean wind, measured or by eye.', '8 mph'),
    comesFrom: optional(azimuth('Where it comes from.', '280 mag')),
    group: optional(reference('group', 'At which group; it counts for all if left out.', 'G1')),
    note: optional(text('What else.', 'gusts in the tops')),
  },
  between: ({ wind }) =>
    Number(wind.value) < 0
      ? [{ field: 'wind', value: wind.text, remedy: 'wind is 0 or more; say in "comes from" from where' }]
      : [],
  example: { wind: '8 mph', comesFrom: '280 mag', group: 'G1' },
});
