// The real server for a phone of tests, and ways in which the network between them fails.
import { type OpenHouse, openHouse } from '../../server/phone.ts';
import { type Network, newPhone, nowhere, open, type Phone, type Window } from './phone.ts';

export type Woods = OpenHouse &
  Readonly<{
    /** The way from a phone to the server when nothing is in between. */
    network: Network;
    /** Ids of all entries of a device, in the order of the log. */
    entriesOf: (device: string) => Promise<string[]>;
  }>;

export async function openWoods(): Promise<Woods> {
  const house = await openHouse();
  const network: Network = async (address, request) => {
    const { pathname, search } = new URL(address);
    // What a browser sends as JSON is text by then.
    return house.from('192.168.1.77', `${pathname}${search}`, {
      method: request.method ?? 'GET',
      headers: request.headers ?? {},
      ...(request.body === undefined ? {} : { body: request.body }),
    });
  };
  return {
    ...house,
    network,
    entriesOf: async (device) => {
      const ids: string[] = [];
      for await (const page of house.log.read())
        for (const { bytes } of page) {
          const entry = JSON.parse(new TextDecoder().decode(bytes)) as { id: string; device: string };
          if (entry.device === device) ids.push(entry.id);
        }
      return ids;
    },
  };
}

/** The question arrives and is answered; the answer gets lost. */
export const losing =
  (network: Network, isLost: (address: string, request: RequestInit) => boolean): Network =>
  async (address, request) => {
    const answer = await network(address, request);
    if (isLost(address, request)) throw new TypeError('the connection was cut');
    return answer;
  };

export const isSending = (address: string, { method, body }: RequestInit): boolean =>
  method === 'POST' &&
  address.endsWith('/api/exchange') &&
  typeof body === 'string' &&
  (JSON.parse(body) as { lines: unknown[] }).lines.length > 0;

/** A phone paired with the woods, with one window open. */
export async function pairedPhone(woods: Woods): Promise<{ phone: Phone; engine: Window }> {
  const phone = newPhone(woods.network);
  const engine = await open(phone);
  const paired = await engine.pair({
    code: woods.codes.make('recorder').code,
    label: "Ann's phone",
    personName: 'Ann Weaver',
  });
  if (!paired.ok) throw new Error(paired.why);
  await engine.exchange();
  return { phone, engine };
}

export { nowhere };

let notes = 0;
/** Saves a note, which nothing contradicts. */
export async function note(engine: Window): Promise<string> {
  notes += 1;
  const saved = await engine.save({ kind: 'note-written', fields: { text: `note ${notes}` } });
  if (!saved.ok) throw new Error(JSON.stringify(saved.problems));
  return saved.id;
}
