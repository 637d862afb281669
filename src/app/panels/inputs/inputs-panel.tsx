import { removeMeasurement } from '../../../plan/edits/edit-water.ts';
import { measurementWords } from '../../../report/words/measure-words.ts';
import { editOrSay, showById } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { HerdInputs } from './herd-inputs.tsx';
import { PumpInputs } from './pump-inputs.tsx';
import { SettingsInputs } from './settings-inputs.tsx';
import { TilesInputs } from './tiles-inputs.tsx';
import { WaterInputs } from './water-inputs.tsx';

/** What only the user can know: what the source gives, who drinks, the pump, what was measured, and the settings. */
export function InputsPanel() {
  return (
    <div class="inputs">
      <details open>
        <summary>
          <h2>Water of the source</h2>
        </summary>
        <WaterInputs />
      </details>
      <details open>
        <summary>
          <h2>Animals</h2>
        </summary>
        <HerdInputs />
      </details>
      <details open>
        <summary>
          <h2>Pump</h2>
        </summary>
        <PumpInputs />
      </details>
      <details open>
        <summary>
          <h2>Measured on site</h2>
        </summary>
        <MeasuredList />
      </details>
      <details open>
        <summary>
          <h2>Settings</h2>
        </summary>
        <SettingsInputs />
      </details>
      <details open>
        <summary>
          <h2>Map tiles from an address</h2>
        </summary>
        <TilesInputs />
      </details>
    </div>
  );
}

/** Every level that was taken on site. New ones are entered at their point. */
function MeasuredList() {
  const { measurements, units } = plan.value;
  if (measurements.length === 0) {
    return <p class="note">Nothing yet. Select a point and open “Measured on site” there to enter a level.</p>;
  }
  return (
    <ul class="measured-list">
      {measurements.map((taken) => {
        const id = taken.kind === 'height' ? taken.point : taken.to;
        return (
          <li key={id}>
            <button type="button" class="link" onClick={() => showById(id)}>
              {measurementWords(taken, plan.value, units)}
            </button>{' '}
            <button type="button" class="quiet danger" onClick={() => editOrSay((p) => removeMeasurement(p, id))}>
              take back
            </button>
          </li>
        );
      })}
    </ul>
  );
}
