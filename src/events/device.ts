// The devices that write into the logbook: which phone belongs to whom, by which key it signs, and that it may no more.
import * as z from 'zod';
import { label, reference, text, uuid } from './fields.ts';
import { field, once, optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Logbook and people';

/** Base64 of 32 bytes: 43 characters, of which the last has its two lowest bits at zero, and "=" (RFC 4648). */
const publicKey = once(() =>
  z
    .string()
    .regex(
      /^[A-Za-z0-9+/]{42}[AEIMQUYcgkosw048]=$/,
      'the 32 bytes of an Ed25519 public key in base64, as the device shows it',
    ),
);
const device = (help: string) => field(uuid, { is: 'data' }, help, '01970000-0000-7000-8000-0000000000d1');

export const devicePaired = defineKind({
  type: 'device-paired',
  chapter,
  title: 'Device paired',
  help: 'A phone or another machine may record from now on, for the person who carries it. If it has a key, its entries are signed with it.',
  fields: {
    device: device('Which device: the id that it writes into its entries.'),
    label: label('What it is called.', "Ann's phone"),
    publicKey: optional(
      field(
        publicKey,
        { is: 'data' },
        'Its Ed25519 public key: 32 bytes in base64 (RFC 8032). Without one its entries are not signed.',
        '11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=',
      ),
    ),
    person: reference('person', 'Who carries it.', 'Ann Weaver'),
  },
  example: {
    device: '01970000-0000-7000-8000-0000000000d1',
    label: "Ann's phone",
    publicKey: '11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=',
    person: 'Ann Weaver',
  },
});

export const deviceRevoked = defineKind({
  type: 'device-revoked',
  chapter,
  title: 'Device revoked',
  help: 'A device was lost, sold or handed on, and may record no more. What it wrote before stays; what it writes afterwards is kept and becomes a finding.',
  fields: {
    device: device('Which device.'),
    reason: text('Why.', 'lost in the woods'),
  },
  example: { device: '01970000-0000-7000-8000-0000000000d1', reason: 'lost in the woods' },
});
