import './place-panel.css';
import { pipeRow } from '../../../handbook/pipe-rows.ts';
import { placeRows, systemWords } from '../../../report/words/place-words.ts';
import { siteNoteSentence, systemNameWords } from '../../../report/words/site-words.ts';
import { deliveryPipeOf } from '../../../siting/reach/reach-of-plan.ts';
import type { SiteAnswer } from '../../../siting/systems/site-answer.ts';
import {
  chooseSystem,
  leavePlaces,
  lookForPlaces,
  pointTo,
  setFloodMark,
  setPipeAtHand,
  setWantedLift,
  showReach,
  takeChosen,
  takePlace,
} from '../../actions/place-actions.ts';
import {
  chosenSystems,
  floodMark,
  pipeAtHand,
  placeSearch,
  pointed,
  reach,
  wantedLift,
} from '../../state/place-store.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';
import { AreaList } from './area-list.tsx';
import { FrontFigure, StripFigure } from './place-figures.tsx';

/** Find the place: where the pump could stand, what would arrive anywhere, and whole systems to choose from. */
export function PlacePanel() {
  const { units, points, pump } = plan.value;
  const delivery = plan.value.routes.some((r) => r.role === 'delivery') ? deliveryPipeOf(plan.value) : null;
  const rowPipe = delivery?.kind === 'row' ? pipeRow(delivery.row) : null;
  const tanks = points.filter((p) => p.role === 'tank' && p.standing !== 'set-aside').length;
  return (
    <section class="job" aria-label="Find the place">
      <ReachSwitch />
      <p class="note">
        {points.some((p) => p.role === 'source')
          ? tanks > 0
            ? 'The search takes the source, its readings and the tanks of the plan, and leaves the rest of the plan aside.'
            : 'No tank stands yet: the search looks for water at a height above the source.'
          : 'Place the source first, and say under Inputs what it gives.'}
      </p>
      <div class="fields">
        {tanks > 0 ? null : (
          <QuantityField
            label="Lift above the source"
            kind="height"
            value={wantedLift.value}
            units={units}
            onValue={(value) => {
              if (value !== null) setWantedLift(value);
              return [];
            }}
          />
        )}
        <QuantityField
          label="Flood above the stream"
          kind="height"
          value={floodMark.value}
          units={units}
          note="The pump stands at least so far above it."
          onValue={(value) => {
            if (value !== null) setFloodMark(Math.max(0, value));
            return [];
          }}
        />
        {rowPipe === null ? null : (
          <QuantityField
            label={`At hand of ${rowPipe.label}`}
            kind="length"
            value={pipeAtHand.value}
            units={units}
            optional
            note="Left empty, any pipe is proposed for the delivery line."
            onValue={(value) => {
              setPipeAtHand(value);
              return [];
            }}
          />
        )}
      </div>
      {pump === null ? null : <p class="note">The pump of the plan is kept: {pump.label}.</p>}
      <AreaList />
      <p class="buttons">
        <button type="button" onClick={() => void lookForPlaces()}>
          Find places
        </button>
      </p>
      <Found />
    </section>
  );
}

/** The layer of what would arrive, and how far it has come. */
function ReachSwitch() {
  const state = reach.value;
  return (
    <div class="place-reach">
      <label class="check">
        <input
          type="checkbox"
          checked={state.kind !== 'off'}
          onChange={(event) => showReach(event.currentTarget.checked)}
        />
        Show on the map what would arrive
      </label>
      {state.kind === 'making' ? (
        <progress aria-label="The map of what would arrive" max="1" value={state.share} />
      ) : null}
      {state.kind === 'none' ? <p class="problem">{NO_REACH[state.why]}</p> : null}
      {state.kind === 'failed' ? <p class="problem">The map could not be made: {state.reason}.</p> : null}
      {state.kind === 'shown' ? (
        <p class="note">Point at the map to read it. A tank that is placed on it comes with its line.</p>
      ) : null}
    </div>
  );
}

const NO_REACH = {
  'no-source': 'There is no source yet.',
  'no-pump': 'There is no pump yet: place one, or take one of the places below.',
  'no-flow': 'Nothing is known of the flow: say under Inputs what the source gives.',
  outside: 'The elevation has no height at the source or at the pump.',
} as const;

function Found() {
  const search = placeSearch.value;
  switch (search.kind) {
    case 'idle':
      return null;
    case 'looking':
      return (
        <>
          <p role="status">Finding places.</p>
          <progress aria-label="Finding places" max="1" value={search.share} />
          <p class="buttons">
            <button type="button" onClick={leavePlaces}>
              Stop looking
            </button>
          </p>
        </>
      );
    case 'failed':
      return <p class="problem">Nothing could be found: {search.reason}.</p>;
    case 'found':
      return <Answer answer={search.answer} />;
  }
}

function Answer({ answer }: { readonly answer: SiteAnswer }) {
  const { units } = plan.value;
  return (
    <>
      {answer.notes.map((note) => (
        <p class="remark" key={note.code}>
          {siteNoteSentence(note, units)}
        </p>
      ))}
      {answer.valley === null || answer.valley.at.length < 2 ? null : (
        <section class="block">
          <h2 class="place-title">Where the fall is</h2>
          <StripFigure strip={answer.valley} units={units} />
          <p class="note">
            The stream below the source. On the band a pump has the least fall, and a drive pipe keeps both rules of
            length.
          </p>
        </section>
      )}
      {answer.places.length === 0 ? null : <Places answer={answer} />}
      {answer.systems.length === 0 ? null : <Systems answer={answer} />}
      <p class="buttons">
        <button type="button" onClick={leavePlaces}>
          Discard
        </button>
      </p>
    </>
  );
}

function Places({ answer }: { readonly answer: SiteAnswer }) {
  const { units } = plan.value;
  const shown = pointed.value;
  return (
    <section class="block">
      <h2 class="place-title">Where the pump could stand</h2>
      <ol class="place-list">
        {answer.places.map((place, k) => (
          <li key={`${place.pump.lon} ${place.pump.lat}`}>
            <dl class="facts">
              {placeRows(place, units).map(({ what, words }) => (
                <div key={what}>
                  <dt>{what}</dt>
                  <dd>{words}</dd>
                </div>
              ))}
            </dl>
            <p class="buttons">
              <button
                type="button"
                aria-pressed={shown?.kind === 'place' && shown.index === k}
                onClick={() =>
                  pointTo(shown?.kind === 'place' && shown.index === k ? null : { kind: 'place', index: k })
                }
              >
                Show<span class="unseen"> place {k + 1}</span> on the map
              </button>
              <button type="button" onClick={() => takePlace(k)}>
                Use it<span class="unseen">: place {k + 1}</span>
              </button>
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Systems({ answer }: { readonly answer: SiteAnswer }) {
  const { units, materials } = plan.value;
  const chosen = chosenSystems.value;
  return (
    <section class="block">
      <h2 class="place-title">Whole systems</h2>
      <FrontFigure answer={answer} units={units} currency={materials.currency} />
      <ol class="place-list">
        {answer.systems.map((system, k) => (
          <li key={`${system.pipe} ${system.delivery.likely}`}>
            <label class="check">
              <input
                type="checkbox"
                checked={chosen.includes(k)}
                onFocus={() => pointTo({ kind: 'system', index: k })}
                onChange={(event) => chooseSystem(k, event.currentTarget.checked)}
              />
              {systemWords(system, units, materials.currency)}
            </label>
            <p class="buttons">
              <button type="button" onClick={() => pointTo({ kind: 'system', index: k })}>
                Show<span class="unseen"> system {k + 1}</span> on the map
              </button>
            </p>
          </li>
        ))}
      </ol>
      <p class="buttons">
        <button type="button" disabled={chosen.length === 0} onClick={() => takeChosen(systemNameWords)}>
          Add as alternatives{chosen.length > 0 ? ` (${chosen.length})` : ''}
        </button>
      </p>
      <p class="note">Three at most. Every one was judged as the planner judges any plan; none fails.</p>
    </section>
  );
}
