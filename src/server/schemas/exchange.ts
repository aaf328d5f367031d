// The shapes of the exchange with phones: lines, rows, questions and answers.
import { z } from '@hono/zod-openapi';
import { hash, head, lineReceipt } from './common.ts';

const base64 = z
  .string()
  .openapi({ format: 'byte', description: 'Base64 with padding (RFC 4648 section 4).' });
const row = {
  salt: base64,
  bytes: base64,
  mediaType: z.string().max(200).openapi({ example: 'image/jpeg' }),
};

/** One erasable row, sent after its entry. */
export const suppliedRow = z.strictObject(row).openapi('SuppliedRow');

/** An entry and what goes beside it. */
export const exchangeLine = z
  .strictObject({
    entry: z
      .string()
      .openapi({ description: 'The canonical text of the entry (see Entry.*), as a JSON string.' }),
    signature: z
      .strictObject({
        keyId: z.string().openapi({ description: 'First 16 hex digits of the SHA-256 of the public key.' }),
        signature: base64.openapi({ description: 'Ed25519 over the UTF-8 bytes of "entry" (RFC 8032).' }),
      })
      .optional(),
    sealed: z
      .array(z.strictObject({ hash, ...row }))
      .optional()
      .openapi({ description: 'Erasable rows that the entry names; photos may come later.' }),
    receipt: z
      .strictObject({ position: z.int().min(0), receivedAt: z.iso.datetime() })
      .optional()
      .openapi({ description: 'Only in lines that the logbook wrote.' }),
  })
  .openapi('ExchangeLine');

/** Lines of one exchange. */
export const mostLines = 1000;

export const exchangeWanted = z
  .strictObject({
    deviceTime: z.iso.datetime({ offset: true }).openapi({
      description: 'What the clock of the device says now. It is compared and changes nothing.',
    }),
    device: z.uuid().toLowerCase(),
    lines: z
      .array(z.unknown())
      .max(mostLines)
      .openapi({
        type: 'array',
        items: { $ref: '#/components/schemas/ExchangeLine' },
        description:
          'None is a question how things stand. A line that cannot be read is kept aside and the others go in.',
      }),
  })
  .openapi('ExchangeWanted');

export const exchanged = z
  .strictObject({
    receipts: z.array(lineReceipt).openapi({ description: 'One for each line, in the same order.' }),
    serverTime: z.iso.datetime(),
    head,
    logbook: z.uuid().openapi({ description: 'Id of the entry that opened the logbook.' }),
    lastSeq: z
      .int()
      .min(0)
      .openapi({ description: 'Highest sequence number of that device in the log; 0 when none.' }),
    program: z.string(),
  })
  .openapi('Exchanged');

export const exchangePage = z
  .strictObject({
    size: z.int().min(0).openapi({ description: 'How many entries the log has.' }),
    head,
    lines: z.array(exchangeLine),
    next: z.int().nullable().openapi({ description: 'Position to go on from; null when this was all.' }),
  })
  .openapi('ExchangePage');

export const supplied = z
  .strictObject({ outcome: z.enum(['kept', 'already-kept', 'erased']) })
  .openapi('Supplied');
