// What frames the work: the logbook, people, blocks, stakes; and notes, photos, reports.
import type { Happening } from '../entry.ts';
import { said } from '../sentence.ts';
import type { Block, Person, Stake } from '../state.ts';
import { giveLabel } from './labels.ts';
import { type Apply, located, raise, take } from './scene.ts';

export const logbookOpened: Apply<'logbook-opened'> = (stand, body, happening) => {
  if (stand.logbook === undefined) {
    stand.logbook = { entry: happening.entry.id, body };
    return;
  }
  raise(
    stand,
    happening,
    {
      code: 'contradiction',
      about: {},
      says: said`The logbook is recorded as opened a second time, as ${body.name}; the first entry holds.`,
      remedy: 'Amend the first one if something in it is wrong, and strike this one.',
    },
    [stand.logbook.entry],
  );
};

export const personNamed: Apply<'person-named'> = (stand, body, happening) => {
  const person: Person = { id: body.person, entries: [happening.entry.id], name: body.name, erased: false };
  take<Partial<Person>>(person, { part: body.part, contact: body.contact });
  stand.people.set(body.person, person);
};

export const personalDataErased: Apply<'personal-data-erased'> = (stand, body, happening) => {
  const person = body.person === undefined ? undefined : stand.people.get(body.person);
  if (person) {
    person.erased = true;
    person.entries.push(happening.entry.id);
  }
  for (const photo of stand.photos) if (photo.body.photo === body.photo) photo.erased = true;
};

export const blockLaidOut: Apply<'block-laid-out'> = (stand, body, happening) => {
  const before = stand.blocks.get(body.block);
  const block: Block = {
    id: body.block,
    entries: [...(before?.entries ?? []), happening.entry.id],
    introduced: true,
    name: body.name,
  };
  const axes =
    body.axesOrigin === undefined
      ? undefined
      : {
          origin: body.axesOrigin,
          azimuth: body.axesAzimuth ?? { text: '0 true', value: '0', reference: 'true' as const },
          when: happening.happenedAt.at,
        };
  take<Partial<Block>>(block, {
    boundary: body.boundary,
    boundaryWhen: happening.happenedAt.at,
    boundaryFrom: body.boundaryFrom,
    area: body.area,
    axes,
  });
  if (before)
    take<Partial<Block>>(block, { prescription: before.prescription, tallyScope: before.tallyScope });
  stand.blocks.set(body.block, block);
  giveLabel(stand, 'block', block.id, body.name, happening);
};

export const prescriptionSet: Apply<'prescription-set'> = (stand, body, happening) => {
  blockOf(stand.blocks, body.block, happening).prescription = { entry: happening.entry.id, body };
};

export const tallyScopeSet: Apply<'tally-scope-set'> = (stand, body, happening) => {
  blockOf(stand.blocks, body.block, happening).tallyScope = { entry: happening.entry.id, body };
};

export const stakeSet: Apply<'stake-set'> = (stand, body, happening) => {
  const stake: Stake = { id: body.stake, entries: [happening.entry.id], label: body.label };
  take<Partial<Stake>>(stake, { what: body.what, position: located(body.position, happening) });
  stand.stakes.set(body.stake, stake);
  giveLabel(stand, 'stake', stake.id, body.label, happening);
};

export const noteWritten: Apply<'note-written'> = (stand, body, happening) => {
  stand.notes.push({
    entry: happening.entry.id,
    at: happening.happenedAt,
    recordedAt: happening.entry.recordedAt,
    body,
  });
};

export const photoTaken: Apply<'photo-taken'> = (stand, body, happening) => {
  stand.photos.push({ entry: happening.entry.id, at: happening.happenedAt, body, erased: false });
};

export const reportIssued: Apply<'report-issued'> = (stand, body, happening) => {
  stand.reports.push({ entry: happening.entry.id, at: happening.happenedAt, body });
};

/** The block of that id; one that nobody has brought in yet is made, so that nothing said of it is lost. */
export function blockOf(blocks: Map<string, Block>, id: string, happening: Happening): Block {
  const block = blocks.get(id) ?? { id, entries: [], introduced: false, name: `block ${id.slice(-6)}` };
  blocks.set(id, block);
  block.entries.push(happening.entry.id);
  return block;
}
