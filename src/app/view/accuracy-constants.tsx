import { changeSettings } from '../../plan/edits/edit-settings.ts';
import type { HeightConstants, TerrainReference } from '../../plan/plan.ts';
import type { HeightAccuracy } from '../../terrain/ground.ts';
import { edit } from '../actions/edit-actions.ts';
import { plan } from '../state/store.ts';
import { QuantityField } from './quantity-field.tsx';

const LABELS: readonly (readonly [keyof HeightConstants, string])[] = [
  ['nugget', 'Noise from cell to cell'],
  ['near', 'Near error'],
  ['nearRange', 'Reach of the near error'],
  ['far', 'Far error'],
  ['farRange', 'Reach of the far error'],
  ['placement', 'Where a drawn point really is'],
];

const constantsOf = ({ nugget, near, nearRange, far, farRange, placement }: HeightAccuracy): HeightConstants => ({
  nugget,
  near,
  nearRange,
  far,
  farRange,
  placement,
});

/** The constants of the heights' spread, to be typed in by whoever knows better than the class. */
export function AccuracyConstants({
  reference,
  chosen,
}: {
  readonly reference: TerrainReference;
  readonly chosen: HeightAccuracy;
}) {
  const set = (constants: HeightConstants | null) =>
    edit((p) => changeSettings(p, { terrain: { ...reference, constants } }));
  const constants = constantsOf(chosen);
  return (
    <details open={reference.constants !== null}>
      <summary>Constants of the spread</summary>
      <p class="note">Standard deviations. A calibration of published accuracies, not published themselves.</p>
      <div class="fields">
        {LABELS.map(([name, label]) => (
          <QuantityField
            key={name}
            label={label}
            kind={name.endsWith('Range') ? 'length' : 'height'}
            value={constants[name]}
            units={plan.value.units}
            onValue={(typed) => (typed === null ? [] : set({ ...constants, [name]: typed }))}
          />
        ))}
      </div>
      {reference.constants === null ? null : (
        <button type="button" onClick={() => set(null)}>
          Take the class’s again
        </button>
      )}
    </details>
  );
}
