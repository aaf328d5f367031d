// Saplings and patches, hazards, damage.
import type { Happening } from '../entry.ts';
import { words } from '../labels.ts';
import { join } from '../members.ts';
import { said } from '../sentence.ts';
import type { Damage, Hazard, Patch, Sapling, SaplingCheck, Stand } from '../state.ts';
import { type Apply, hazardOf, located, patchOf, raise, saplingOf, take } from './scene.ts';

export const saplingProtected: Apply<'sapling-protected'> = (stand, body, happening) => {
  const sapling = saplingOf(stand, body.sapling, happening);
  sapling.introduced = true;
  take<Partial<Sapling>>(sapling, {
    label: body.label,
    species: body.species,
    height: body.height,
    diameter: body.diameter,
    beside: body.beside,
    position: located(body.position, happening),
  });
  join(stand, sapling, body.group);
};

export const patchProtected: Apply<'patch-protected'> = (stand, body, happening) => {
  const patch = patchOf(stand, body.patch, happening);
  patch.introduced = true;
  take<Partial<Patch>>(patch, {
    label: body.label,
    species: body.species,
    edge: body.edge,
    edgeWhen: body.edge === undefined ? undefined : happening.happenedAt.at,
    area: body.area,
    position: located(body.position, happening),
  });
  join(stand, patch, body.group);
};

export const saplingChecked: Apply<'sapling-checked'> = (stand, body, happening) => {
  const found =
    body.sapling === undefined
      ? patchOf(stand, body.patch ?? '', happening)
      : saplingOf(stand, body.sapling, happening);
  const check: SaplingCheck = {
    entry: happening.entry.id,
    at: happening.happenedAt,
    condition: body.condition,
  };
  take<Partial<SaplingCheck>>(check, { by: body.byStem });
  found.checks.push(check);
  if (body.condition === 'unharmed') return;
  raiseHarm(
    stand,
    found,
    body.sapling === undefined ? { patch: found.id } : { sapling: found.id },
    check,
    happening,
  );
};

function raiseHarm(
  stand: Stand,
  found: Sapling | Patch,
  thing: { sapling: string } | { patch: string },
  check: SaplingCheck,
  happening: Happening,
): void {
  const gone = check.condition === 'not-found';
  const condition = words(check.condition);
  raise(stand, happening, {
    code: 'sapling-harmed',
    about: { ...thing, ...(found.group === undefined ? {} : { group: found.group }) },
    says:
      gone || check.by === undefined
        ? said`${thing} was ${condition}.`
        : said`${thing} was ${condition} by ${{ stem: check.by }}.`,
    remedy: gone
      ? 'Look again under the slash; not found is not the same as dead.'
      : 'Compare with what the prescription allows, and write down what happened in a note about it.',
  });
}

export const hazardNoted: Apply<'hazard-noted'> = (stand, body, happening) => {
  const hazard = hazardOf(stand, body.hazard, happening);
  hazard.introduced = true;
  hazard.what = body.what;
  hazard.notedAt = happening.happenedAt;
  take<Partial<Hazard>>(hazard, {
    stem: body.stem,
    group: body.group,
    radius: body.radius,
    note: body.note,
    position: located(body.position, happening),
  });
};

export const hazardCleared: Apply<'hazard-cleared'> = (stand, body, happening) => {
  hazardOf(stand, body.hazard, happening).clearedBy = happening.entry.id;
  stand.openHazards.delete(body.hazard);
};

export const damageNoted: Apply<'damage-noted'> = (stand, body, happening) => {
  const damage: Damage = { id: body.damage, entries: [happening.entry.id], body, at: happening.happenedAt };
  take<Partial<Damage>>(damage, { position: located(body.position, happening) });
  stand.damages.set(body.damage, damage);
  for (const thing of [
    body.stem === undefined ? undefined : stand.stems.get(body.stem),
    body.sapling === undefined ? undefined : stand.saplings.get(body.sapling),
  ]) {
    thing?.entries.push(happening.entry.id);
  }
};
