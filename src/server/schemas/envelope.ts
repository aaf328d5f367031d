// The envelope of an entry, for the document; log/entry checks it on the way in and says what is wrong.
import type { App } from '../environment.ts';

const uuid = { type: 'string', format: 'uuid' } as const;
const counting = { type: 'integer', minimum: 1 } as const;
const hashes = {
  type: 'array',
  minItems: 1,
  items: { type: 'string', pattern: '^[0-9a-f]{64}$' },
} as const;

export function registerEnvelope({ openAPIRegistry }: App): void {
  openAPIRegistry.registerComponent('schemas', 'Envelope', {
    type: 'object',
    description: 'An entry as a device writes it once: canonical JSON (RFC 8785), no member more.',
    required: ['id', 'type', 'v', 'happenedAt', 'recordedAt', 'by', 'device', 'seq', 'body'],
    additionalProperties: false,
    properties: {
      id: { ...uuid, description: 'UUID of version 7, made by the device.' },
      type: { type: 'string', maxLength: 60, pattern: '^[a-z][a-z0-9]*(-[a-z0-9]+)*$' },
      v: { ...counting, description: 'Version of the body.' },
      happenedAt: {
        type: 'object',
        required: ['at', 'precision'],
        additionalProperties: false,
        properties: {
          at: { type: 'string', format: 'date-time' },
          precision: { type: 'string', enum: ['instant', 'minute', 'day'] },
        },
      },
      recordedAt: { type: 'string', format: 'date-time' },
      by: { ...uuid, description: 'The person.' },
      device: uuid,
      seq: { ...counting, description: '1, 2, 3 … on that device.' },
      sealed: hashes,
      erases: hashes,
      body: { type: 'object' },
    },
  });
}
