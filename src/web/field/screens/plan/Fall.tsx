// One fall of a plan, as it is read beside the stem: aim by the compass first, room, method, what is at risk, ways out, and
// whether notch and hinge say stop.
import type { ComponentChildren, JSX } from 'preact';
import { type PlannedFall, type PlanSaid, stopsOf } from '../../../../felling/index.ts';
import { planText } from '../../text/index.ts';
import { useUnits } from '../context.ts';
import { byCompass, far, thin } from './words.ts';

type Asked = Readonly<{ fall: PlannedFall; after: PlanSaid['after'] }>;

/** The stem that comes next: what is needed at the stump stands largest. */
export function NextFall({ fall, after }: Asked): JSX.Element {
  const { label, magnetic, step } = fall;
  return (
    <>
      <p class="tag-large">{label}</p>
      <p class="tag-large numbers">
        {magnetic === undefined ? planText.true(step.aim) : planText.magnetic(magnetic)}
      </p>
      <p class="numbers">{magnetic === undefined ? planText.noMagnetic : planText.true(step.aim)}</p>
      <FallDetails fall={fall} after={after} />
    </>
  );
}

export function FallDetails({ fall, after }: Asked): JSX.Element {
  const units = useUnits();
  const { explanation, step, magnetic, waysOut, worksheet, sides, filledBy } = fall;
  const { landmark, band } = explanation;
  const { objections } = worksheet;
  const north = magnetic === undefined ? undefined : step.aim - magnetic;
  return (
    <>
      {stopsOf(fall).map((words) => (
        <p class="trouble" key={words}>
          {words}
        </p>
      ))}
      <dl class="section">
        <Pair term={planText.toward}>
          {landmark === undefined
            ? planText.noLandmark
            : planText.landmark(landmark, far(landmark.distance, units))}
        </Pair>
        <Pair term={planText.band}>
          {(['left', 'right'] as const).map((side) => (
            <p key={side}>{planText.side(band[side].degrees, side, band[side].reaches)}</p>
          ))}
        </Pair>
        <Pair term={planText.method}>
          <How fall={fall} />
        </Pair>
        <Pair term={planText.chance}>{planText.percent(step.hangUp)}</Pair>
        <Pair term={planText.risks}>
          {explanation.risks.length === 0 ? planText.noRisks : null}
          {explanation.risks.map((risk) => (
            <p key={`${risk.id} ${risk.how}`}>{planText.risk(risk)}</p>
          ))}
        </Pair>
        <OnceDown stem={fall.stem} after={after} />
        <Pair term={planText.ways}>
          {waysOut.routes.map(({ side, azimuth, blockedBy, steep }) => (
            <p key={side} class={blockedBy.length > 0 ? 'trouble' : ''}>
              {planText.way(
                side,
                byCompass(azimuth, north),
                blockedBy.map((one) => one.label),
                steep,
              )}
            </p>
          ))}
        </Pair>
        <Pair term={planText.notch}>
          <p>
            {planText.hinge(
              thin(worksheet.notch.depth, units),
              thin(worksheet.hinge.thickness, units),
              thin(worksheet.hinge.sound, units),
              thin(worksheet.hinge.wanted, units),
            )}
          </p>
          {[...objections, planText.rot].map((words) => (
            <p key={words}>{words}</p>
          ))}
          {sides.map((side) => (
            <p key={side.id}>
              {planText.sapling(side.label, side.lies, side.on, side.note)}
              {(['left', 'right'] as const).map((hand) =>
                side.against[hand].length === 0 ? null : ` ${planText.against(hand, side.against[hand])}`,
              )}
            </p>
          ))}
        </Pair>
        {filledBy.length > 0 && (
          <Pair term={planText.assumed}>
            {filledBy.map(({ field }) => planText.measure(field)).join('; ')}
          </Pair>
        )}
      </dl>
      <Close fall={fall} north={north} />
    </>
  );
}

function Pair({ term, children }: Readonly<{ term: string; children: ComponentChildren }>): JSX.Element {
  return (
    <div>
      <dt class="soft small">{term}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function How({ fall: { aim } }: Readonly<{ fall: PlannedFall }>): JSX.Element {
  const units = useUnits();
  const { method, wedges, afterwards } = aim;
  return (
    <>
      <p>
        {wedges === undefined
          ? planText.methods[method]
          : planText.wedging(thin(wedges.lift, units), far(wedges.backLean, units, 1))}
      </p>
      {afterwards.map((what) => (
        <p class="trouble" key={what}>
          {planText.afterwards[what]}
        </p>
      ))}
    </>
  );
}

/** What it comes to lie across, and whether it can roll then. */
function OnceDown({ stem, after }: Readonly<{ stem: string; after: PlanSaid['after'] }>): JSX.Element | null {
  const lines = [
    ...after.crossings.pairs
      .filter((pair) => pair.stem === stem)
      .slice(0, MOST)
      .map(({ over, chance }) => planText.across(over, chance)),
    ...after.rolling.filter((one) => one.stem === stem).map(({ chance }) => planText.rolls(chance)),
  ];
  if (lines.length === 0) return null;
  return (
    <Pair term={planText.onceDown}>
      {[...lines, planText.tension].map((words) => (
        <p key={words}>{words}</p>
      ))}
    </Pair>
  );
}

/** How many stems that it can cross are named, the likeliest first. */
const MOST = 5;

/** What the model only just decided against. */
function Close({ fall, north }: Readonly<{ fall: PlannedFall; north: number | undefined }>): JSX.Element {
  const { otherAims, otherStems } = fall.step;
  return (
    <>
      {otherAims
        .filter(({ close }) => close)
        .slice(0, 1)
        .map(({ aim, more }) => (
          <p class="soft" key={aim}>
            {planText.closeAim(byCompass(aim, north), more.hangUps, more.loss)}
          </p>
        ))}
      {otherStems
        .filter(({ close }) => close)
        .slice(0, 2)
        .map(({ id, more }) => (
          <p class="soft" key={id}>
            {planText.closeStem(id, more.hangUps, more.loss)}
          </p>
        ))}
    </>
  );
}
