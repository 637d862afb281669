import { useId, useState } from 'preact/hooks';
import type { PointRole } from '../../../plan/model/plan.ts';
import { readPosition } from '../../../report/words/position-words.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import { POINT_WORDS, ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { placeAtDevice } from '../../actions/device-actions.ts';
import { placePoint } from '../../actions/edit-actions.ts';
import { hideRefusal, pickTool } from '../../actions/view-actions.ts';
import { device } from '../../state/device-store.ts';
import { refusal, tool } from '../../state/store.ts';

/** What a click on the map will do, and the way to do the same from the keyboard. */
export function ToolHint() {
  const problem = firstProblem(refusal.value);
  const chosen = tool.value;
  if (chosen === 'select' && problem === null) return null;
  return (
    <div class="tool-hint">
      {problem === null ? null : (
        <p class="problem" role="alert">
          {problem}{' '}
          <button type="button" class="quiet" onClick={hideRefusal}>
            All right
          </button>
        </p>
      )}
      {chosen === 'select' ? null : 'place' in chosen ? (
        <PlaceHint role={chosen.place} />
      ) : (
        <p>
          Click along the way of the {ROUTE_WORDS[chosen.draw].name.toLowerCase()}, from one point to the other;
          double-click or Enter ends it. With the keys on the map: Space sets a bend in its middle, Backspace takes it
          back. <StopButton />
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
      <p>
        Click the map where the {POINT_WORDS[role].name.toLowerCase()} stands, or move it under the cross and press
        Enter. <StopButton />
      </p>
      <p class="by-hand">
        <label for={id}>or longitude, latitude</label>
        <input id={id} name="place" type="text" autocomplete="off" aria-invalid={wrong !== null} />
        <button type="submit">Place</button>
        {device.value.kind === 'shown' ? (
          <button type="button" onClick={() => placeAtDevice(role)}>
            Place where I am
          </button>
        ) : null}
      </p>
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

function StopButton() {
  return (
    <button type="button" class="quiet" onClick={() => pickTool('select')}>
      Stop (Esc)
    </button>
  );
}
