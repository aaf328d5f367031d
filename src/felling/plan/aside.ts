// The stems that stay standing, each with the reason and with what would change that.
import type { FellingModel } from '../model/build.ts';
import type { FilledStem } from '../model/filled.ts';
import type { SetAside } from '../order/result.ts';
import type { RefusedAim } from '../stem/aims.ts';

/** A stem that stays standing, with what would change that. */
export type PlannedAside = Readonly<{
  stem: string;
  label: string;
  because: string;
  /** What would have to be otherwise; each a sentence. */
  remedies: readonly string[];
}>;

/** What would help against each reason. */
const remedyFor: Readonly<Record<RefusedAim['why'], string>> = {
  'narrow band': 'Leave it, or have somebody trained take it with a winch and a rope, or a climber.',
  'side lean': 'Measure its lean; a rope and winch at the side are for trained people.',
  'back lean, no wedges': 'With wedges more directions can be aimed at (--wedges).',
  'back lean beyond wedges': 'With a winch more directions can be aimed at (--winch); that takes training.',
  'back lean, no figure': 'A winch or a rope would be needed (--winch); that takes training.',
  'back lean beyond the winch': 'Leave it, or get help with a machine.',
  uphill: 'Leave it, or get help: uphill it can slide back.',
  'direction error': 'Measure lean, height and crown; or leave it.',
};

/** What is said of a stem that is set aside. */
export function asideOf({ stem, because, causes }: SetAside, model: FellingModel): PlannedAside {
  const of = model.stems[stem];
  const { id = '', label = '' } = of?.filled.stem ?? {};
  if (of?.withheld !== undefined) return { stem: id, label, because: of.withheld, remedies: [] };
  const refused = new Set((of?.refused ?? []).map(({ why }) => why));
  const forbidden = new Set((of?.forbidden ?? []).map(({ risk }) => risk.label));
  const others = causes.flatMap((cause) => model.inputs.stems[cause]?.label ?? []);
  return {
    stem: id,
    label,
    because,
    remedies: [
      ...(noLean(of?.filled)
        ? [
            'Nobody noted which way it leans, and a decayed, dead, seamed or forked stem is aimed near its lean only: look at it, and record its lean (record stem-measured).',
          ]
        : []),
      ...[...refused].map((why) => remedyFor[why]),
      ...(forbidden.size === 0 ? [] : [`Directions were left out because of ${[...forbidden].join(', ')}.`]),
      ...(others.length === 0
        ? []
        : [`It would help if ${others.join(' or ')} came down first some other way.`]),
      'Leave it standing: that is a choice too.',
    ].filter((remedy, at, all) => all.indexOf(remedy) === at),
  };
}

function noLean(filled: FilledStem | undefined): boolean {
  return filled !== undefined && (filled.compromised || filled.dead) && filled.lean.azimuth === undefined;
}
