import { changeSettings } from '../../plan/edits/edit-settings.ts';
import { edit } from '../actions/edit-actions.ts';
import { plan, terrain } from '../state/store.ts';
import { QuantityField } from './quantity-field.tsx';

/** Settings of the whole plan, and what is known of the terrain. */
export function SettingsInputs() {
  const { units, waterTemperature, confidence } = plan.value;
  return (
    <div>
      <div class="fields">
        <QuantityField
          label="Water temperature"
          kind="temperature"
          value={waterTemperature}
          units={units}
          onValue={(typed) => (typed === null ? [] : edit((p) => changeSettings(p, { waterTemperature: typed })))}
        />
        <QuantityField
          label="How sure is sure"
          kind="share"
          value={confidence}
          units={units}
          note="a limit holds (or fails) when its chance is at least this"
          onValue={(typed) => (typed === null ? [] : edit((p) => changeSettings(p, { confidence: typed })))}
        />
      </div>
      <TerrainFacts />
    </div>
  );
}

function TerrainFacts() {
  const about = terrain.value?.about;
  if (about === undefined) return null;
  return (
    <dl class="facts">
      <div>
        <dt>Elevation file</dt>
        <dd>{about.files.join(', ')}</dd>
      </div>
      <div>
        <dt>Map projection</dt>
        <dd>{about.crs}</dd>
      </div>
      <div>
        <dt>Accuracy class</dt>
        <dd>{about.accuracy.id}</dd>
      </div>
      <div>
        <dt>Vertical datum</dt>
        <dd>{about.verticalDatum ?? 'not stated in the file'}</dd>
      </div>
    </dl>
  );
}
