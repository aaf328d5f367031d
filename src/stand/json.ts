// The stand as plain JSON, for programs: the same over HTTP and from the command line. Every member is always
// there; what is not known is null. Quantities, azimuths and positions stand as they were entered.
import type { EventType } from '../events/index.ts';
import type { TreeHead } from '../log/entry/index.ts';
import { dangersIn } from './dangers.ts';
import type { Names } from './describe.ts';
import type { Folded } from './fold.ts';
import { type GroupView, viewGroup } from './group-view.ts';
import {
  damageJson,
  emergencyJson,
  hazardJson,
  patchJson,
  placeJson,
  saplingJson,
  stemJson,
  type Told,
  talliedJson,
} from './json-things.ts';
import { openFindings } from './settle.ts';
import type { Device, Group, Person, Stand, Tallied } from './state.ts';
import { locate } from './where.ts';

export type StandJsonOptions = Readonly<{
  /** Head of the log at the size that was folded. */
  head: TreeHead;
  /** Names of people by their sealed hash; those that are missing are given as null. */
  names: Names;
  /** Id of the one group to show; its stems, saplings, hazards and damage, and the block it lies in. */
  group?: string;
}>;

/**
 * The stand as JSON. Entries are given by their number in the log, or by id where they have none yet.
 * @throws RangeError when `group` names no group of the stand
 */
export function standJson(folded: Folded, { head, names, group }: StandJsonOptions) {
  const { stand } = folded;
  const told: Told = {
    locator: locate(stand),
    numbers: (entries) => entries.map((id) => folded.entries.get(id)?.position ?? id),
  };
  const shown = group === undefined ? undefined : groupOf(stand, group);
  const view = shown && viewGroup(stand, folded.findings, shown);
  const things = view ?? everything(stand);
  const groups = shown === undefined ? [...stand.groups.values()] : [shown];
  const blocks = [...stand.blocks.values()].filter(({ id }) => shown === undefined || id === shown.block);
  return {
    stand: 1 as const,
    head: { size: head.size, root: head.root },
    logbook: stand.logbook === undefined ? null : logbookJson(stand.logbook.body),
    people: [...stand.people.values()].map((person) => personJson(person, names, told)),
    devices: [...stand.devices.values()].map((device) => deviceJson(device, told)),
    emergency: emergencyJson(stand, told),
    blocks: blocks.map((block) => ({
      id: block.id,
      name: block.name,
      area: block.area ?? null,
      boundary: block.boundary ?? null,
      boundaryFrom: block.boundaryFrom ?? null,
      axes: block.axes === undefined ? null : { origin: block.axes.origin, azimuth: block.axes.azimuth },
      prescription: block.prescription?.body ?? null,
      tallyScope: block.tallyScope?.body ?? null,
      entries: told.numbers(block.entries),
    })),
    stakes: [...stand.stakes.values()].map(({ id, label, what, position, entries }) => ({
      id,
      label,
      what: what ?? null,
      position: position?.entered ?? null,
      place: placeJson(told.locator.stake(id)),
      entries: told.numbers(entries),
    })),
    evidence: stand.evidence
      .filter(({ body }) => shown === undefined || body.block === shown.block)
      .map((noted) => talliedJson(noted, told)),
    features: [...stand.features.values()].map(({ id, label, body, entries }) => ({
      id,
      label,
      recorded: body ?? null,
      entries: told.numbers(entries),
    })),
    consents: stand.consents.map((consent) => talliedJson(consent, told)),
    groups: groups.map((one) => groupJson(stand, view ?? viewGroup(stand, folded.findings, one), told)),
    stems: [...things.stems].map((stem) => stemJson(stem, told)),
    saplings: [...things.saplings].map((sapling) => saplingJson(sapling, told)),
    patches: [...things.patches].map((patch) => patchJson(patch, told)),
    hazards: [...things.hazards].map((hazard) => hazardJson(stand, hazard, told)),
    damages: [...things.damages].map((damage) => damageJson(damage, told)),
    stumpsAudited: stand.stumpsAudited
      .filter(({ body }) => shown === undefined || groupOfStump(stand, body) === shown.id)
      .map((stump) => talliedJson(stump, told)),
    plots: stand.plots
      .filter(({ body }) => shown === undefined || (body.block !== undefined && body.block === shown.block))
      .map((plot) => talliedJson(plot, told)),
    regeneration: stand.regeneration
      .filter(({ body }) => shown === undefined || body.group === shown.id)
      .map((plot) => talliedJson(plot, told)),
    prices: stand.prices.map((list) => keptJson(list, told)),
    fellingDefaults: [...stand.fellingDefaults.values()].map((set) => keptJson(set, told)),
    winds: stand.winds
      .filter(({ body }) => shown === undefined || body.group === undefined || body.group === shown.id)
      .map((noted) => keptJson(noted, told)),
    openFindings: view === undefined ? openFindings(folded.findings).length : view.openFindings.length,
  };
}

/** What has no place of its own. */
function keptJson<T extends EventType>({ at, body, entry }: Tallied<T>, told: Told) {
  return { at, recorded: body, entries: told.numbers([entry]) };
}

function groupOfStump(stand: Stand, { group, stem }: Tallied<'stump-audited'>['body']): string | undefined {
  return group ?? (stem === undefined ? undefined : stand.stems.get(stem)?.group);
}

function groupOf(stand: Stand, id: string): Group {
  const found = stand.groups.get(id);
  if (found === undefined)
    throw new RangeError(`group "${id}": no such group; give the id of a group of the stand`);
  return found;
}

function everything(stand: Stand) {
  return {
    stems: stand.stems.values(),
    saplings: stand.saplings.values(),
    patches: stand.patches.values(),
    hazards: stand.hazards.values(),
    damages: stand.damages.values(),
  };
}

function logbookJson(body: NonNullable<Stand['logbook']>['body']) {
  const { name, zone, units, crs, breastHeight, breastHeightFrom, declination } = body;
  return {
    name,
    zone,
    units,
    crs,
    breastHeight: breastHeight ?? null,
    breastHeightFrom: breastHeightFrom ?? null,
    declination: declination ?? null,
  };
}

/** Contacts stay in the logbook: nobody who reads a stand needs them. */
function personJson({ id, name, part, erased, entries }: Person, names: Names, told: Told) {
  return {
    id,
    name: erased ? null : (names.get(name) ?? null),
    part: part ?? null,
    erased,
    entries: told.numbers(entries),
  };
}

function deviceJson({ id, label, keyId, person, revokedBy, entries }: Device, told: Told) {
  return {
    id,
    label,
    keyId: keyId ?? null,
    person: person ?? null,
    revoked: revokedBy !== undefined,
    entries: told.numbers(entries),
  };
}

function groupJson(stand: Stand, view: GroupView, told: Told) {
  const { group } = view;
  return {
    id: group.id,
    label: group.label,
    block: group.block ?? null,
    reason: group.reason ?? null,
    opening: group.opening,
    position: group.center?.entered ?? null,
    place: placeJson(told.locator.resolve(group.center)),
    plannedEdge: group.plannedEdge ?? null,
    plannedArea: group.plannedArea ?? null,
    widened: group.widened.map(({ reason }) => reason),
    measured: group.measured.map((measured) => talliedJson(measured, told)),
    plan: group.plan === undefined ? null : talliedJson(group.plan, told),
    closings: group.closings.map(({ at, body }) => ({ at, ...body })),
    counts: {
      markedCut: view.markedCut.length,
      markedLeave: view.markedLeave.length,
      felled: view.felled.length,
      hungUp: view.hungUp.length,
      markedCutStanding: view.standingCut.length,
      foundDown: view.foundDown.length,
      stumpsExamined: view.examined.length,
      stumpsDecayed: view.decayed.length,
      saplings: view.saplings.length,
      patches: view.patches.length,
      openHazards: dangersIn(stand, group.id).hazards.length,
      damages: view.damages.length,
      openFindings: view.openFindings.length,
    },
    entries: told.numbers(group.entries),
  };
}
