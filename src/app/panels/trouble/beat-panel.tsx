import { MISSING } from '../../../diagnosis/words/test-words.ts';
import { beatFigure, namedMoments } from '../../../report/figure/beat-figure.ts';
import { cancelBeat, simulateBeat } from '../../actions/diagnosis-actions.ts';
import { beatState } from '../../state/diagnosis-store.ts';
import { history, plan, terrain } from '../../state/store.ts';
import { Figure } from '../fields/estimate-figure.tsx';
import './trouble.css';

/** Three simulated beats of the chosen pump under its panel, on request. */
export function BeatPanel() {
  const state = beatState.value;
  if (terrain.value === null) return null;
  const stale = state.kind === 'done' && state.plan !== history.value.present;
  return (
    <section class="beat-panel" aria-labelledby="beat-title">
      <h3 id="beat-title">The beat</h3>
      {state.kind === 'busy' ? (
        <p role="status">
          <progress max={100} value={state.progress?.done ?? 0} aria-label="Simulated so far" />{' '}
          <button type="button" onClick={cancelBeat}>
            Cancel
          </button>
        </p>
      ) : (
        <button type="button" onClick={() => void simulateBeat()}>
          {state.kind === 'done' ? 'Simulate it again' : 'Simulate three beats'}
        </button>
      )}
      {state.kind === 'failed' ? <p role="alert">Not simulated: {state.reason}</p> : null}
      {state.kind === 'done' ? <Shown state={state} stale={stale} /> : null}
    </section>
  );
}

function Shown({
  state,
  stale,
}: {
  readonly state: Extract<typeof beatState.value, { kind: 'done' }>;
  readonly stale: boolean;
}) {
  const { beat } = state;
  if (!beat.ok) {
    const { found, expected } = MISSING[beat.because];
    return (
      <p role="alert">
        Found {found}, expected {expected}.
      </p>
    );
  }
  const { course, parts } = beat;
  return (
    <>
      {stale ? <p class="note">The plan has changed since: simulate it again.</p> : null}
      {course.beats ? null : <p role="alert">It does not beat as it stands: the figure shows how it comes to rest.</p>}
      <div class="figure-room">
        <Figure
          node={beatFigure(course, {
            units: plan.value.units,
            width: 420,
            height: 300,
            title: 'Head at the pump and velocity in the drive pipe over three beats',
          })}
        />
      </div>
      <ol class="moments">
        {namedMoments(course).map(({ number, words, at }) => (
          <li key={number} value={number}>
            {words}, {at.toFixed(2)} s
          </li>
        ))}
      </ol>
      <p class="note">
        By simulation of the pressure waves, not measured.
        {parts === 'usual' ? ' The pump is known by its sheet only: a usual ram of its bore stands for it.' : ''}
      </p>
    </>
  );
}
