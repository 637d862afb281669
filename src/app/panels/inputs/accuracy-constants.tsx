import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import type { HeightConstants, TerrainReference } from '../../../plan/model/plan.ts';
import { USUAL_DOUBT } from '../../../terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../../terrain/grid/ground.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';

const LABELS: readonly (readonly [keyof HeightConstants, string])[] = [
  ['nugget', 'Noise from cell to cell'],
  ['near', 'Near error'],
  ['nearRange', 'Reach of the near error'],
  ['far', 'Far error'],
  ['farRange', 'Reach of the far error'],
  ['placement', 'Where a drawn point really is'],
  ['smoothingDoubt', 'Times the smoothing that shows'],
];

const constantsOf = ({
  nugget,
  near,
  nearRange,
  far,
  farRange,
  placement,
  smoothingDoubt = USUAL_DOUBT,
}: HeightAccuracy): Required<HeightConstants> => ({
  nugget,
  near,
  nearRange,
  far,
  farRange,
  placement,
  smoothingDoubt,
});

/** Reaches are lengths, the doubt of smoothing a plain number. */
function kindOf(name: keyof HeightConstants): QuantityKind {
  if (name === 'smoothingDoubt') return 'ratio';
  return name.endsWith('Range') ? 'length' : 'height';
}

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
            kind={kindOf(name)}
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
