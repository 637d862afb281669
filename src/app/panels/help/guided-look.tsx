import { useLayoutEffect, useRef } from 'preact/hooks';
import { tourStops } from '../../../report/glossary/tour-words.ts';
import { goToStop, leaveTour } from '../../actions/demo-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { tourDone, tourStop } from '../../state/tour-store.ts';
import './guided-look.css';

/** The guided look at the demo: what to do with one's own hand, above the map so that it covers nothing. */
export function GuidedLook() {
  const stop = tourStop.value;
  return stop === null ? null : <Stop stop={stop} />;
}

function Stop({ stop }: { readonly stop: number }) {
  const head = useRef<HTMLHeadingElement>(null);
  // A new stop is read from its beginning, also without sight.
  useLayoutEffect(() => head.current?.focus(), [stop]);
  const stops = tourStops(evaluation.value, plan.value.units);
  const shown = stops[stop];
  if (shown === undefined) return null;
  const done = tourDone.value.has(stop);
  const last = stop === stops.length - 1;
  return (
    <section
      class="guided-look"
      aria-label="Guided look"
      data-stop={stop + 1}
      data-done={done}
      onKeyDown={(event) => {
        if (event.key === 'Escape') leaveTour();
      }}
    >
      <div class="guided-words">
        <h2 ref={head} tabIndex={-1}>
          {stop + 1} of {stops.length}: {shown.title}
        </h2>
        <p role="status">{done ? <strong>Done. {shown.seen}</strong> : shown.doThis}</p>
      </div>
      <p class="buttons">
        {stop === 0 ? null : (
          <button type="button" class="quiet" onClick={() => goToStop(stop - 1)}>
            Back
          </button>
        )}
        {last ? null : (
          <button type="button" onClick={() => goToStop(stop + 1)}>
            {done ? 'Next stop' : 'Skip this stop'}
          </button>
        )}
        <button type="button" class={last && done ? '' : 'quiet'} onClick={leaveTour}>
          {last && done ? 'End' : 'Leave the guided look'}
        </button>
      </p>
    </section>
  );
}
