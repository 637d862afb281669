import {
  beginArea,
  beginGate,
  closeGates,
  deleteArea,
  finishArea,
  leaveMarking,
  nameArea,
  noteArea,
} from '../../actions/area-actions.ts';
import { areaCorners, gatedArea } from '../../state/place-store.ts';
import { plan, tool } from '../../state/store.ts';
import { TextField } from '../fields/text-field.tsx';

/** What must not be crossed: the areas of the plan with their gates, and how one is drawn. */
export function AreaList() {
  const { areas } = plan.value;
  const marking = tool.value !== 'select' && 'mark' in tool.value ? tool.value.mark : null;
  return (
    <details class="place-areas" open={areas.length > 0 || marking !== null}>
      <summary>What must not be crossed</summary>
      <p class="note">
        A house, a road, somebody else’s land, wet ground. Nothing that is proposed crosses it but at the gates that you
        mark.
      </p>
      <ul>
        {areas.map(({ id, name, note, gates }) => (
          <li key={id}>
            <div class="fields">
              <TextField label="Name of the area" value={name} onValue={(text) => nameArea(id, text)} />
              <TextField label="Note" value={note} onValue={(text) => noteArea(id, text)} />
            </div>
            <p class="buttons">
              <button type="button" onClick={() => beginGate(id)}>
                Mark a gate<span class="unseen"> of {name}</span>
              </button>
              {gates.length === 0 ? null : (
                <button type="button" onClick={() => closeGates(id)}>
                  Close its {gates.length === 1 ? 'gate' : `${gates.length} gates`}
                </button>
              )}
              <button type="button" class="quiet danger" onClick={() => deleteArea(id)}>
                delete<span class="unseen"> {name}</span>
              </button>
            </p>
          </li>
        ))}
      </ul>
      {marking === null ? (
        <p class="buttons">
          <button type="button" onClick={beginArea}>
            Draw an area
          </button>
        </p>
      ) : (
        <Marking corners={areaCorners.value.length} gate={gatedArea.value !== null} />
      )}
    </details>
  );
}

function Marking({ corners, gate }: { readonly corners: number; readonly gate: boolean }) {
  return (
    <>
      <p role="status">
        {gate
          ? 'Click the map where it may be crossed, or move the map with the arrow keys and press Enter.'
          : `Click the corners on the map one after another, or move the map with the arrow keys and press Enter at each. ${corners} so far.`}
      </p>
      <p class="buttons">
        {gate ? null : (
          <button type="button" disabled={corners < 3} onClick={finishArea}>
            Finish the area
          </button>
        )}
        <button type="button" onClick={leaveMarking}>
          Cancel
        </button>
      </p>
    </>
  );
}
