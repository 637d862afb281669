import { useState } from 'preact/hooks';
import { setPump } from '../../../plan/edits/edit-water.ts';
import type { MeasuredRun } from '../../../plan/model/plan.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { edit, editOrSay } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';

const FIELDS: readonly { readonly name: keyof MeasuredRun; readonly label: string; readonly kind: QuantityKind }[] = [
  { name: 'driveFlow', label: 'It took', kind: 'flow' },
  { name: 'delivery', label: 'It delivered', kind: 'flow' },
  { name: 'fall', label: 'Under a fall of', kind: 'height' },
  { name: 'deliveryHead', label: 'To a height above it of', kind: 'height' },
];

/** What this pump was measured to do; it corrects what is reckoned of it. */
export function MeasuredRunFields() {
  const { pump, units } = plan.value;
  const [typed, setTyped] = useState<Partial<MeasuredRun>>({});
  if (pump === null)
    return <p class="note">Once a pump is chosen, a run of it that was measured can be entered here.</p>;
  const shown: Partial<MeasuredRun> = pump.measured ?? typed;
  const take = (changes: Partial<MeasuredRun>) => {
    const next = { ...shown, ...changes };
    setTyped(next);
    const run = whole(next);
    return run === null ? [] : edit((p) => setPump(p, { ...pump, measured: run }));
  };
  return (
    <details class="block" open={pump.measured !== null}>
      <summary>
        <h2>A measured run</h2>
      </summary>
      <p class="note">
        What {pump.label} was seen to take and deliver. All four are needed; they then stand in the place of the model's
        efficiency.
      </p>
      <div class="fields">
        {FIELDS.map(({ name, label, kind }) => (
          <QuantityField
            key={name}
            label={label}
            kind={kind}
            value={shown[name] ?? null}
            units={units}
            onValue={(value) => (value === null ? [] : take({ [name]: value }))}
          />
        ))}
      </div>
      {pump.measured === null ? null : (
        <p class="buttons">
          <button
            type="button"
            class="quiet danger"
            onClick={() => {
              setTyped({});
              editOrSay((p) => setPump(p, { ...pump, measured: null }));
            }}
          >
            take the measured run back
          </button>
        </p>
      )}
    </details>
  );
}

function whole({ driveFlow, delivery, fall, deliveryHead }: Partial<MeasuredRun>): MeasuredRun | null {
  if (driveFlow === undefined || delivery === undefined || fall === undefined || deliveryHead === undefined)
    return null;
  return { driveFlow, delivery, fall, deliveryHead };
}
