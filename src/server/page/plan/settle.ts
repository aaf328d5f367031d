// The form: what a person settles, stem by stem, what is at hand and how the ground is; sent, it comes back as another plan.
import { type FellingPlan, NOTCH_METHODS, type PlannedFall } from '../../../felling/index.ts';
import { html, type Piece, table } from '../../../reports/index.ts';
import { assumptionSection } from './assumptions.ts';
import { choiceField, type Form, textField, tickBox } from './fields.ts';
import { addressOf, type FormStem, stemField } from './form.ts';

export function settleForm(form: Form, plan: FellingPlan | undefined): Piece {
  const { state } = form;
  const [path] = addressOf(state).split('?');
  return html`<section id="settle"><h2>Settle something and plan again</h2>
    <form method="get" action="${path}">
      ${table<FormStem>(
        'An aim is from true north or by the compass, such as 95 true or 95 mag. Place 1 falls first. All fields may stay empty',
        [
          { head: 'Stem', kind: 'head', cell: ({ label }) => label },
          { head: 'In this plan', cell: (stem) => inPlan(stem, plan) },
          {
            head: 'Aim',
            cell: (stem) =>
              textField(form, {
                name: stemField('aim', stem),
                label: `Aim of ${stem.label}`,
                shown: false,
              }),
          },
          {
            head: 'Place',
            cell: (stem) =>
              textField(form, {
                name: stemField('place', stem),
                label: `Place of ${stem.label} in the order`,
                shown: false,
                numeric: true,
              }),
          },
          {
            head: 'Down before',
            cell: (stem) =>
              textField(form, {
                name: stemField('before', stem),
                label: `Stems that ${stem.label} has to be down before`,
                shown: false,
              }),
          },
          {
            head: 'Last',
            cell: (stem) =>
              tickBox(form, {
                name: stemField('last', stem),
                label: `${stem.label} is felled after all others`,
                shown: false,
              }),
          },
          { head: 'Other aims', kind: 'wide', cell: (stem) => otherAims(stem, form, plan) },
        ],
        state.stems,
      )}
      <fieldset><legend>At hand, and the ground</legend><div class="fields">
        ${tickBox(form, { name: 'wedges', label: 'Wedges are at hand' })}
        ${tickBox(form, {
          name: 'winch',
          label: 'A winch is at hand, and somebody trained in it',
        })}
        ${choiceField(form, { name: 'notch', label: 'Notch' }, NOTCH_METHODS)}
        ${textField(form, {
          name: 'slope',
          label: 'Slope of the ground',
          help: 'In percent, such as 20 %. Give with it which way is down.',
        })}
        ${textField(form, { name: 'downhill', label: 'Straight down is', help: 'Such as 210 mag.' })}
        ${textField(form, { name: 'wind', label: 'Wind', help: 'Mean wind, such as 8 mph; as noted last today if left out, else calm.' })}
        ${textField(form, {
          name: 'by',
          label: 'Who fells by it',
          help: 'The numbers that were recorded for this person are taken, and it is this person who adopts the plan. You, if left out.',
        })}
        ${textField(form, {
          name: 'people',
          label: 'Where people work or stay',
          help: 'Such as: landing at 135 mag, 400 ft from stake A. Several with ; between them.',
        })}
      </div></fieldset>
      ${assumptionSection(form)}
      ${tickBox(form, {
        name: 'measure-next',
        label: 'Work out too what to measure first',
        help: 'Which measurement would change the plan most. It takes longer than the plan, for many stems minutes.',
      })}
      <p><button type="submit">Plan again</button> <a href="${path}">Take everything back</a></p>
      <p class="help">Nothing is recorded by this. What is settled stands in the address of the page, so that it can be kept.</p>
    </form></section>`;
}

function fallOf({ id }: FormStem, plan: FellingPlan | undefined): PlannedFall | undefined {
  return plan?.falls.find(({ stem }) => stem === id);
}

function inPlan(stem: FormStem, plan: FellingPlan | undefined): string {
  if (plan === undefined) return '–';
  const at = plan.falls.findIndex((fall) => fall.stem === stem.id);
  const fall = plan.falls[at];
  return fall === undefined ? 'not planned' : `${at + 1}, ${fall.step.aim.toFixed(1)}° true`;
}

/** Links that settle another aim and plan again. */
function otherAims(stem: FormStem, { state }: Form, plan: FellingPlan | undefined): Piece {
  const others = fallOf(stem, plan)?.step.otherAims ?? [];
  if (others.length === 0) return html`–`;
  return html`${others.map(({ aim, close }, at) => {
    const change = { [stemField('aim', stem)]: `${aim.toFixed(1)} true` };
    return html`${at > 0 && ', '}<a href="${addressOf(state, { change })}#order" aria-label="Plan again with ${stem.label} aimed at ${aim.toFixed(1)}°">${aim.toFixed(1)}°</a>${close && ' (only just decided)'}`;
  })}`;
}
