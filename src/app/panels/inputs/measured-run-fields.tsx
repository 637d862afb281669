import { useState } from 'preact/hooks';
import { setPump } from '../../../plan/edits/edit-water.ts';
import type { MeasuredRun } from '../../../plan/model/plan.ts';
import { runWords } from '../../../report/words/pump-size-words.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { edit, editOrSay } from '../../actions/edit-actions.ts';
import { askedForm } from '../../state/measure-store.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';

const FIELDS: readonly {
  readonly name: Exclude<keyof MeasuredRun, 'plusMinus'>;
  readonly label: string;
  readonly kind: QuantityKind;
}[] = [
  { name: 'driveFlow', label: 'Drive flow', kind: 'flow' },
  { name: 'delivery', label: 'Delivered', kind: 'flow' },
  { name: 'fall', label: 'Fall', kind: 'height' },
  { name: 'deliveryHead', label: 'Lift', kind: 'height' },
];

/** What this pump was measured to do; it corrects what is reckoned of it. */
export function MeasuredRunFields() {
  const { pump, units } = plan.value;
  const [typed, setTyped] = useState<Partial<MeasuredRun>>({});
  if (pump === null)
    return <p class="note">Once a pump is chosen, a run of it that was measured can be entered here.</p>;
  const shown: Partial<MeasuredRun> = pump.measured ?? typed;
  const take = (changes: Partial<MeasuredRun>) => enter({ ...shown, ...changes });
  const enter = (next: Partial<MeasuredRun>) => {
    setTyped(next);
    const run = whole(next);
    return run === null ? [] : edit((p) => setPump(p, { ...pump, measured: run }));
  };
  return (
    <details
      class="block"
      open={pump.measured !== null || (pump.moreRuns ?? []).length > 0 || askedForm.value?.kind === 'run'}
    >
      <summary>
        <h2>A test run of the pump</h2>
      </summary>
      <p class="note">
        What {pump.label} was seen to take and deliver. All four are needed; what is thought of its efficiency is then
        scaled to them, the less surely the further from them it works.
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
        <QuantityField
          label="Plus or minus"
          note="a share of it; leave blank if unknown"
          kind="share"
          value={shown.plusMinus ?? null}
          units={units}
          optional
          onValue={(value) => {
            const { plusMinus: _before, ...rest } = shown;
            return value === null || value > 0 ? enter(value === null ? rest : { ...rest, plusMinus: value }) : [];
          }}
        />
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
            Remove this run
          </button>{' '}
          <button
            type="button"
            class="quiet"
            onClick={() => {
              setTyped({});
              const { measured } = pump;
              const moreRuns = [...(pump.moreRuns ?? []), ...(measured === null ? [] : [measured])];
              editOrSay((p) => setPump(p, { ...pump, moreRuns, measured: null }));
            }}
          >
            Add another run
          </button>
        </p>
      )}
      {(pump.moreRuns ?? []).length === 0 ? null : (
        <ul class="measured-list">
          {(pump.moreRuns ?? []).map((run, index) => (
            <li key={`${index} ${run.delivery}`}>
              {runWords(run, units)}{' '}
              <button
                type="button"
                class="quiet danger"
                onClick={() =>
                  editOrSay((p) => setPump(p, { ...pump, moreRuns: (pump.moreRuns ?? []).toSpliced(index, 1) }))
                }
              >
                remove
              </button>
            </li>
          ))}
        </ul>
      )}
    </details>
  );
}

function whole({ driveFlow, delivery, fall, deliveryHead, plusMinus }: Partial<MeasuredRun>): MeasuredRun | null {
  if (driveFlow === undefined || delivery === undefined || fall === undefined || deliveryHead === undefined)
    return null;
  return { driveFlow, delivery, fall, deliveryHead, ...(plusMinus !== undefined && { plusMinus }) };
}
