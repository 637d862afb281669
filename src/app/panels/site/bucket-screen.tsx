import { useEffect, useState } from 'preact/hooks';
import { flowOfReading } from '../../../evaluation/site/source-yield.ts';
import { Z975 } from '../../../evaluation/statistics/normal.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { changeBucket, takeBackFilling, takeFillings, tapBucket } from '../../actions/site-actions.ts';
import { type Fillings, fillings } from '../../state/site-store.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';

/** Times fillings of a container by one button. */
export function BucketScreen() {
  const now = fillings.value;
  const { units } = plan.value;
  return (
    <div class="site-screen">
      <QuantityField
        label="The container holds"
        value={now.volume}
        kind="volume"
        units={units}
        digits
        onValue={(volume) => {
          if (volume !== null) changeBucket({ volume });
          return [];
        }}
      />
      <button type="button" class="site-big site-tap" onClick={(event) => tapBucket(event.timeStamp)}>
        {now.since === null ? 'Start: the water runs in' : <Running since={now.since} />}
      </button>
      <p role="status" class="site-times">
        {now.times.length === 0
          ? 'Five fillings tell how evenly it runs.'
          : `Seconds: ${now.times.map((time) => time.toFixed(1)).join(' · ')}`}
      </p>
      <FlowSoFar now={now} />
      {now.times.length > 0 || now.since !== null ? (
        <p class="site-buttons">
          <button type="button" class="quiet" onClick={takeBackFilling}>
            Remove the last filling
          </button>
        </p>
      ) : null}
      <button type="button" class="site-big" disabled={now.times.length === 0} onClick={takeFillings}>
        Take {now.times.length === 1 ? 'the filling' : `the ${now.times.length} fillings`} into the plan
      </button>
    </div>
  );
}

/** How often the seconds on the button are told, ms. */
const TICK = 200;

function Running({ since }: { readonly since: number }) {
  const [now, setNow] = useState(since);
  useEffect(() => {
    const clock = setInterval(() => setNow(performance.now()), TICK);
    return () => clearInterval(clock);
  }, []);
  return (
    <>
      Full: stop <span aria-hidden="true">{Math.max(0, (now - since) / 1000).toFixed(1)} s</span>
    </>
  );
}

/** What the fillings come to so far. */
function FlowSoFar({ now }: { readonly now: Fillings }) {
  if (now.times.length === 0) return null;
  const { units } = plan.value;
  const { flow, deviation } = flowOfReading({
    kind: 'timed',
    volume: now.volume,
    volumePlusMinus: now.plusMinus,
    times: now.times,
  });
  return (
    <p class="site-figure">
      {writeQuantity(flow, 'flow', units)} <small>plus or minus {writeQuantity(Z975 * deviation, 'flow', units)}</small>
    </p>
  );
}
