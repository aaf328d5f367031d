// The English catalogue, put together from its parts. Nothing that a screen shows is written anywhere else.
import { common } from './en/common.ts';
import { danger } from './en/danger.ts';
import { engine } from './en/engine.ts';
import { fields } from './en/fields.ts';
import { ground } from './en/ground.ts';
import { keep } from './en/keep.ts';
import { options } from './en/options.ts';
import { phone } from './en/phone.ts';
import { position } from './en/position.ts';
import { sending } from './en/sending.ts';
import { stems } from './en/stems.ts';
import { today } from './en/today.ts';

export const en = {
  common,
  danger,
  engine,
  fields,
  ground,
  keep,
  options,
  phone,
  position,
  sending,
  stems,
  today,
} as const;
