import { useState } from 'preact/hooks';
import { setMeasurement } from '../../../plan/edits/edit-water.ts';
import type { PlanPoint } from '../../../plan/model/plan.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

/** The ± a new reading starts with: a water level or hand level well kept, common practice without a source. */
const STARTING_PLUS_MINUS = 0.05;

/** A level taken on site for one point; it takes the place of the DEM's height there. */
export function MeasureLevel({ point }: { readonly point: PlanPoint }) {
  const known = plan.value.measurements.find(
    (taken) => (taken.kind === 'height' ? taken.point : taken.to) === point.id,
  );
  const others = plan.value.points.filter(({ id }) => id !== point.id);
  const [chosen, setChosen] = useState(known?.kind === 'difference' ? known.from : '');
  const [plusMinus, setPlusMinus] = useState(known?.plusMinus ?? STARTING_PLUS_MINUS);
  const value = known === undefined ? null : known.kind === 'height' ? known.height : known.rise;
  const take = (reading: number | null, from: string, spread: number) => {
    if (reading === null) return [];
    return edit((p) =>
      setMeasurement(
        p,
        from === ''
          ? { kind: 'height', point: point.id, height: reading, plusMinus: spread }
          : { kind: 'difference', from, to: point.id, rise: reading, plusMinus: spread },
      ),
    );
  };
  return (
    <details class="measure-level" open={known !== undefined}>
      <summary>Measured on site</summary>
      <p class="note">Ground to ground. A measured level takes the place of the DEM's height of this point.</p>
      <div class="fields">
        <ChoiceField
          label="Taken from"
          value={chosen}
          choices={[
            { value: '', words: 'the height datum itself' },
            ...others.map(({ id, name }) => ({ value: id, words: `the ground at ${name}` })),
          ]}
          onValue={(from) => {
            setChosen(from);
            return take(value, from, plusMinus);
          }}
        />
        <QuantityField
          label={chosen === '' ? 'Height of the ground' : 'Rise of the ground'}
          note={chosen === '' ? '' : 'negative when this point lies lower'}
          value={value}
          kind="height"
          units={plan.value.units}
          optional
          onValue={(reading) => take(reading, chosen, plusMinus)}
        />
        <QuantityField
          label="Plus or minus"
          value={plusMinus}
          kind="height"
          units={plan.value.units}
          onValue={(spread) => {
            if (spread === null) return [];
            setPlusMinus(spread);
            return take(value, chosen, spread);
          }}
        />
      </div>
    </details>
  );
}
