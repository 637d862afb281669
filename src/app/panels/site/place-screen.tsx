import { knownHeights } from '../../../evaluation/site/level-book.ts';
import { distanceBetween } from '../../../geodesy/geodesic.ts';
import type { PlanPoint } from '../../../plan/model/plan.ts';
import { heightChangeWords } from '../../../report/words/measure-words.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { followDevice, moveToDevice } from '../../actions/device-actions.ts';
import { device } from '../../state/device-store.ts';
import { onGround } from '../../state/jobs-store.ts';
import { plan } from '../../state/store.ts';

const REFUSED = {
  denied: 'The phone was not allowed to tell its position. Allow it in the browser’s settings.',
  unavailable: 'The phone finds no position. Step out from under trees and try again.',
  late: 'No position came in time. Step out from under trees and try again.',
  none: 'This device gives the page no position.',
} as const;

/** Where a point stands by the phone, with its doubt, beside where the plan has it. */
export function PlaceScreen({ point }: { readonly point: PlanPoint }) {
  const now = device.value;
  const { units } = plan.value;
  const length = (value: number) => writeQuantity(value, 'length', units);
  return (
    <div class="site-screen">
      <p>Stand at {point.name} and hold the phone still for a minute.</p>
      {now.kind === 'off' || now.kind === 'refused' ? (
        <button type="button" class="site-big" onClick={() => followDevice()}>
          Find my position
        </button>
      ) : null}
      {now.kind === 'asking' ? <p role="status">Waiting for a position…</p> : null}
      {now.kind === 'refused' ? <p role="alert">{REFUSED[now.reason]}</p> : null}
      <dl class="facts">
        {now.kind === 'shown' ? (
          <>
            <div>
              <dt>The phone’s position</dt>
              <dd>
                ±{length(now.fix.accuracy)} <small>95 times of a hundred, as it says itself</small>
              </dd>
            </div>
            <div>
              <dt>From there to {point.name} in the plan</dt>
              <dd>{length(distanceBetween(now.fix.position, point.position))}</dd>
            </div>
            <div>
              <dt>Ground there by the elevation file</dt>
              <dd>{now.ground === null ? 'none' : writeQuantity(now.ground, 'height', units)}</dd>
            </div>
          </>
        ) : null}
        <Model point={point} />
      </dl>
      {now.kind === 'shown' ? (
        <button type="button" class="site-big" onClick={() => moveToDevice(point.id)}>
          Move {point.name} to the phone’s position
        </button>
      ) : null}
    </div>
  );
}

/** What the plan knows of the point's ground, and how well a point on the map is placed. */
function Model({ point }: { readonly point: PlanPoint }) {
  const known = onGround.value;
  if (known === null) return null;
  const { ground, plan: grounded } = known;
  const height = knownHeights(grounded, [point.id], ground).get(point.id);
  return (
    <>
      {height === undefined ? null : (
        <div>
          <dt>Ground at {point.name} in the plan</dt>
          <dd>{heightChangeWords({ before: undefined, after: height }, grounded.units)}</dd>
        </div>
      )}
      <div>
        <dt>How well the plan knows where it is</dt>
        <dd>
          ±{writeQuantity(2 * ground.accuracy.placement, 'length', grounded.units)}{' '}
          <small>how far off a point drawn on this map may be</small>
        </dd>
      </div>
    </>
  );
}
