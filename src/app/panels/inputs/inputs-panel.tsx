import { HerdInputs } from './herd-inputs.tsx';
import { MeasuredList } from './measured-list.tsx';
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
