import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import type { PointRole } from '../../../plan/model/plan.ts';
import { DEVICE_REFUSALS, deviceLines } from '../../../report/words/pointer-words.ts';
import { readPosition } from '../../../report/words/position-words.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import { POINT_WORDS, ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { followDevice, leaveDevice, placeAtDevice } from '../../actions/device-actions.ts';
import { placePoint } from '../../actions/edit-actions.ts';
import { hideRefusal, pickTool } from '../../actions/view-actions.ts';
import { device } from '../../state/device-store.ts';
import type { MapViewProps } from '../../state/map-view-props.ts';
import { plan, refusal, tool } from '../../state/store.ts';
import { type PageWidth, useMenu } from '../fields/use-menu.ts';
import { FileStates } from '../files/file-states.tsx';
import { useMapProps } from './map-props.ts';
import { MapStrip } from './map-strip.tsx';

/** The map with its strip of files and looks, and what is going on with the files. */
export function MapPane({ width }: { readonly width: PageWidth }) {
  return (
    <section class="map-pane" aria-label="Map">
      <div class="strip-row">
        {width === 'narrow' ? <StripMenu /> : <MapStrip />}
        <DeviceButton />
      </div>
      <DeviceFound />
      <div class="map-place">
        <LazyMap />
        <ToolHint />
        <FileStates />
      </div>
    </section>
  );
}

function StripMenu() {
  return (
    <details class="more strip" ref={useMenu()}>
      <summary>Map and files</summary>
      <div class="more-body">
        <MapStrip />
      </div>
    </details>
  );
}

type MapState = { readonly view: ComponentType<MapViewProps> } | { readonly failed: string } | null;

/** The map is a large part of the program and comes after the rest of the page. */
function LazyMap() {
  const [state, setState] = useState<MapState>(null);
  const props = useMapProps();
  useEffect(() => {
    let wanted = true;
    import('../../map/map-view.tsx').then(
      ({ MapView }) => wanted && setState({ view: MapView }),
      (error: unknown) => wanted && setState({ failed: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      wanted = false;
    };
  }, []);
  if (state === null) return <p class="map-wait">The map is being loaded…</p>;
  if ('failed' in state) {
    return (
      <p class="map-wait" role="alert">
        The map could not be loaded ({state.failed}). Load the page again; everything else works without it.
      </p>
    );
  }
  return <state.view {...props} />;
}

/** Above the map, so that it covers nothing of it: shows where the device is, once the user asks for it. */
function DeviceButton() {
  const now = device.value;
  const on = now.kind === 'asking' || now.kind === 'shown';
  return (
    <button type="button" class="device-button" aria-pressed={on} onClick={() => (on ? leaveDevice() : followDevice())}>
      <span class="device-dot" aria-hidden="true" /> Where I am
    </button>
  );
}

function DeviceFound() {
  const now = device.value;
  if (now.kind === 'off') return null;
  if (now.kind === 'refused') {
    return (
      <div class="device-words" role="alert">
        <p>{DEVICE_REFUSALS[now.reason]}</p>
        <button type="button" class="quiet" onClick={leaveDevice}>
          OK
        </button>
      </div>
    );
  }
  const lines =
    now.kind === 'shown'
      ? deviceLines({ ...now.fix, ground: now.ground, units: plan.value.units })
      : ['The device is looking for its position…'];
  return (
    <div class="device-words" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

/** What a click on the map will do, and the way to do the same from the keyboard. */
function ToolHint() {
  const problem = firstProblem(refusal.value);
  const chosen = tool.value;
  if (chosen === 'select' && problem === null) return null;
  return (
    <div class="tool-hint">
      {problem === null ? null : (
        <p class="problem" role="alert">
          {problem}{' '}
          <button type="button" class="quiet" onClick={hideRefusal}>
            OK
          </button>
        </p>
      )}
      {chosen === 'select' ? null : 'place' in chosen ? (
        <PlaceHint role={chosen.place} />
      ) : 'mark' in chosen ? (
        <p class="hint-line">
          <span>
            {TAP}{' '}
            {chosen.mark === 'gate' ? 'where the area may be crossed.' : 'the corners of the area, one after another.'}{' '}
            {TOUCH ? null : 'With the keys on the map: Enter takes its middle.'}
          </span>
        </p>
      ) : (
        <p class="hint-line">
          <span>
            {TAP} along the way of the {ROUTE_WORDS[chosen.draw].name.toLowerCase()}, from one point to the other;{' '}
            {TOUCH
              ? 'tap the last point twice to end.'
              : 'double-click or Enter ends it. With the keys on the map: Space sets a bend in its middle, Backspace takes it back.'}
          </span>
          <StopButton />
        </p>
      )}
    </div>
  );
}

function PlaceHint({ role }: { readonly role: PointRole }) {
  const id = useId();
  const [wrong, setWrong] = useState<string | null>(null);
  const place = (event: SubmitEvent, form: HTMLFormElement) => {
    event.preventDefault();
    const typed = new FormData(form).get('place');
    const reading = readPosition(typeof typed === 'string' ? typed : '');
    setWrong(reading.ok ? null : reading.sentence);
    if (!reading.ok) return;
    placePoint(role, reading.value);
    requestAnimationFrame(focusPlaced);
  };
  return (
    <form onSubmit={(event) => place(event, event.currentTarget)}>
      <p class="hint-line">
        <span>
          {TAP} where the {POINT_WORDS[role].name.toLowerCase()} stands
          {TOUCH ? '.' : ', or move it under the cross and press Enter.'}
        </span>
        <StopButton />
      </p>
      <TypedPlace id={id} wrong={wrong !== null}>
        {device.value.kind === 'shown' ? (
          <button type="button" onClick={() => placeAtDevice(role)}>
            Place where I am
          </button>
        ) : null}
      </TypedPlace>
      {wrong === null ? null : (
        <p class="problem" role="alert">
          {wrong}
        </p>
      )}
    </form>
  );
}

/** The field that had the focus is gone: on to what was placed, in the list or else on the map, where the keys move it. */
function focusPlaced(): void {
  if (tool.value !== 'select') return;
  const row = document.querySelector<HTMLElement>('.course-item[aria-current="true"]');
  (row ?? document.querySelector<HTMLElement>('.map-frame canvas'))?.focus();
}

/** A place by its coordinates; with a finger it is folded away, so that the hint is one line. */
function TypedPlace({
  id,
  wrong,
  children,
}: {
  readonly id: string;
  readonly wrong: boolean;
  readonly children: ComponentChildren;
}) {
  const field = (
    <p class="by-hand">
      <label for={id}>{TOUCH ? 'longitude, latitude' : 'or longitude, latitude'}</label>
      <input id={id} name="place" type="text" autocomplete="off" aria-invalid={wrong} />
      <button type="submit">Place</button>
      {children}
    </p>
  );
  return TOUCH && !wrong && device.value.kind !== 'shown' ? (
    <details class="typed-place">
      <summary>type it</summary>
      {field}
    </details>
  ) : (
    field
  );
}

/** Whether the page is worked with a finger; asked once, as the device does not change. */
const TOUCH = matchMedia('(pointer: coarse)').matches;
const TAP = TOUCH ? 'Tap' : 'Click';

function StopButton() {
  return (
    <button type="button" class="quiet stop" onClick={() => pickTool('select')} title="Stop (Esc)">
      {TOUCH ? <span aria-hidden="true">✕</span> : 'Stop (Esc)'}
      {TOUCH ? <span class="unseen">Stop</span> : null}
    </button>
  );
}
