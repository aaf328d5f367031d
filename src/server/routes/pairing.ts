// POST /api/pairing: a phone shows the one-time code that stands on the screen of this computer, and gets a token. A
// browser on this computer needs no code: programs here may do everything anyway.
import { createRoute, z } from '@hono/zod-openapi';
import type { Draft } from '../../record/index.ts';
import { findThing } from '../../stand/index.ts';
import {
  type Access,
  hashOfToken,
  newToken,
  type PairedDevice,
  type Taken,
  tooManyTries,
} from '../access/index.ts';
import { json } from '../answers.ts';
import type { App, Room } from '../environment.ts';
import { readJsonBody } from '../json-body.ts';
import { Problem, sentence } from '../problems.ts';
import type { Look } from '../reading.ts';
import { problemAnswers } from '../schemas/common.ts';
import { addRoute } from './add.ts';
import { recordDrafts } from './record-drafts.ts';

const wanted = z
  .strictObject({
    code: z.string().max(100).optional().openapi({
      description:
        'The one-time code, in capitals or not, with hyphens or without. Left out on the computer of the logbook, which then pairs its own browser as a recorder.',
      example: '7K2-XQ4-9FM',
    }),
    device: z
      .uuid()
      .toLowerCase()
      .openapi({ description: 'The id that the device writes into its entries.' }),
    label: z.string().trim().min(1).max(100).openapi({ example: "Ann's phone" }),
    publicKey: z.string().optional().openapi({
      description: 'Its Ed25519 public key, 32 bytes in base64; left out where the device has none.',
    }),
    person: z
      .uuid()
      .toLowerCase()
      .optional()
      .openapi({ description: 'Who carries it: somebody in the logbook.' }),
    personName: z.string().trim().min(1).max(200).optional().openapi({
      description: 'Who carries it, by name; a name that is new to the logbook is recorded.',
    }),
  })
  .openapi('PairingWanted');
const paired = z
  .strictObject({
    token: z
      .string()
      .openapi({ description: 'To be shown with every request: Authorization: Bearer TOKEN.' }),
    role: z.enum(['reader', 'recorder', 'keeper']),
    logbook: z.uuid().openapi({ description: 'Id of the entry that opened the logbook.' }),
    person: z.uuid(),
    serverTime: z.iso.datetime(),
  })
  .openapi('Paired');

const route = createRoute({
  method: 'post',
  path: '/api/pairing',
  summary: 'Pair a device',
  description:
    'Exchanges the one-time code that "gapledger serve --lan" shows for a token, and records device-paired (and person-named for somebody new). A code counts once, for ten minutes, and dies after ten wrong tries; an address that is wrong too often has to wait.',
  request: {
    // Read by hand below, so that what is wrong with it gets the same problems as everything else that is sent.
    body: {
      required: true,
      content: { 'application/json': { schema: { $ref: '#/components/schemas/PairingWanted' } } },
    },
  },
  responses: {
    201: { description: 'The device is paired.', content: { 'application/json': { schema: paired } } },
    ...problemAnswers(
      'malformed-body',
      'cross-site',
      'pairing-refused',
      'too-many-tries',
      'read-only',
      'questions',
      'too-large',
      'unsupported-media-type',
      'bad-draft',
      'disk-error',
      'disk-full',
    ),
  },
});

type Wanted = z.infer<typeof wanted>;

export function addPairing(app: App, room: Room): void {
  app.openAPIRegistry.register('PairingWanted', wanted);
  addRoute(app, route, async (context) => {
    const typed = await readJsonBody(context.req, wanted, 'pairing');
    const address = context.env?.incoming?.socket.remoteAddress ?? '';
    const { role, device: asker } = context.var.caller;
    const isHere = role === 'keeper' && asker === undefined;
    const { access, taken } = await takeCode(room, { code: typed.code, isHere, address });
    try {
      const person = await room.inTurn(() => record(room, typed));
      await room.recorded();
      const token = newToken();
      const now = new Date(room.now()).toISOString();
      const device: PairedDevice = {
        device: typed.device,
        label: typed.label,
        role: taken.role,
        tokenHash: hashOfToken(token),
        pairedAt: now,
      };
      access.registry.add(device);
      access.paired?.(device);
      context.header('Cache-Control', 'no-store');
      const logbook = room.desk.log.facts().logbook;
      return json(context, { token, role: taken.role, logbook, person, serverTime: now }, 201);
    } catch (error) {
      taken.giveBack();
      throw error;
    }
  });
}

/** Lets in who shows the code, and a browser of this computer that shows none. */
async function takeCode(
  { access }: Room,
  { code, isHere, address }: { code: string | undefined; isHere: boolean; address: string },
): Promise<{ access: Access; taken: Taken & { ok: true } }> {
  if (access === undefined) throw refused('no-code');
  if (code === undefined && isHere)
    return { access, taken: { ok: true, role: 'recorder', giveBack: () => undefined } };
  if (code === undefined) throw refused('missing');
  const wait = await access.wrongCodes.waits(address);
  if (wait > 0) throw tooManyTries(wait);
  const taken = access.codes.take(code);
  if (taken.ok) return { access, taken };
  const longer = await access.wrongCodes.wrong(address);
  if (longer > 0) throw tooManyTries(longer);
  throw refused(taken.why);
}

const why = {
  missing: 'A code is needed from another machine: it stands on the screen of the computer.',
  wrong:
    'This is not the code that counts now. Look at the screen of the computer again; after ten wrong tries a new code has to be made.',
  used: 'This code was used before; each counts once. Have another made at the computer.',
  expired: 'This code is older than ten minutes. Have another made at the computer.',
  'no-code': 'No code counts at the moment. Have one made at the computer: "gapledger serve --lan" shows it.',
} as const;

function refused(code: keyof typeof why): Problem {
  return new Problem('pairing-refused', why[code], { why: code });
}

/** Records who carries the device, where that is somebody new, and that it is paired; gives the person. */
async function record(room: Room, typed: Wanted): Promise<string> {
  const known = await room.reading.look({}, (look) => {
    checkDevice(room, typed, look);
    return personOf(typed, look);
  });
  const drafts: Draft[] = [
    ...(known === undefined ? [{ kind: 'person-named', fields: { name: typed.personName } }] : []),
    {
      kind: 'device-paired',
      fields: {
        device: typed.device,
        label: typed.label,
        person: known ?? typed.personName,
        ...(typed.publicKey === undefined ? {} : { publicKey: typed.publicKey }),
      },
    },
  ];
  await recordDrafts(room, drafts, true);
  return room.reading.look({}, ({ folded }) => folded.stand.devices.get(typed.device)?.person ?? '');
}

/** A device may be paired again, but nobody may pair as another device. */
function checkDevice({ desk }: Room, { device, publicKey }: Wanted, { folded }: Look): void {
  const known = folded.stand.devices.get(device);
  const foreign = known?.publicKey !== undefined && known.publicKey !== publicKey;
  if (device !== desk.device && !foreign) return;
  throw new Problem(
    'pairing-refused',
    'This id belongs to a device with another key. Have this device forget its pairing, so that it starts as a new one.',
    { why: 'other-device' },
  );
}

/** The person named; undefined for a name that is new. */
function personOf({ person, personName }: Wanted, { folded, names }: Look): string | undefined {
  if (person !== undefined) {
    if (folded.stand.people.has(person)) return person;
    throw badPerson('person', person, 'nobody in this logbook has that id; send personName instead');
  }
  if (personName === undefined) throw badPerson('personName', '', 'write who carries the device');
  const found = findThing(folded.stand, 'person', personName, names);
  if (found.ok && folded.stand.people.has(found.value)) return found.value;
  if (!found.ok && found.choices !== undefined) throw badPerson('personName', personName, found.remedy);
  return undefined;
}

function badPerson(field: string, value: string, remedy: string): Problem {
  return new Problem('bad-draft', `${field} "${value}": ${sentence(remedy)}`, {
    problems: [{ field, value, remedy }],
  });
}
