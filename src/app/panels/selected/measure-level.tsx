import { useState } from 'preact/hooks';
import { addMeasurement, changeMeasurement } from '../../../plan/edits/edit-water.ts';
import type { Measurement, PlanPoint } from '../../../plan/model/plan.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

/** The ± a new reading starts with: a water level or hand level well kept, common practice without a source. */
const STARTING_PLUS_MINUS = 0.05;

/** Levels taken on site for one point; they are weighed with the DEM's height there and with all other levels. */
export function MeasureLevel({ point }: { readonly point: PlanPoint }) {
  const readings = plan.value.measurements.flatMap((taken, index) =>
    (taken.kind === 'height' ? taken.point : taken.to) === point.id ? [{ taken, index }] : [],
  );
  const [another, setAnother] = useState(false);
  return (
    <details class="measure-level" open={readings.length > 0}>
      <summary>Measured on site</summary>
      <p class="note">
        Ground to ground. A level is weighed with the DEM's height and with the other levels, each by its ±.
      </p>
      {readings.map(({ taken, index }) => (
        <ReadingFields key={index} point={point} known={taken} index={index} onEntered={() => {}} />
      ))}
      {readings.length === 0 || another ? (
        <ReadingFields
          key={`new ${readings.length}`}
          point={point}
          known={null}
          index={null}
          onEntered={() => setAnother(false)}
        />
      ) : (
        <p class="row-end">
          <button type="button" class="quiet" onClick={() => setAnother(true)}>
            Add another reading
          </button>
        </p>
      )}
    </details>
  );
}

interface ReadingProps {
  readonly point: PlanPoint;
  /** The reading and its place in the plan's list; null for one that is not entered yet. */
  readonly known: Measurement | null;
  readonly index: number | null;
  readonly onEntered: () => void;
}

function ReadingFields({ point, known, index, onEntered }: ReadingProps) {
  const others = plan.value.points.filter(({ id }) => id !== point.id);
  const [chosen, setChosen] = useState(known?.kind === 'difference' ? known.from : '');
  const [plusMinus, setPlusMinus] = useState(known?.plusMinus ?? STARTING_PLUS_MINUS);
  const value = known === null ? null : known.kind === 'height' ? known.height : known.rise;
  const take = (reading: number | null, from: string, spread: number) => {
    if (reading === null) return index === null ? [] : edit((p) => changeMeasurement(p, index, null));
    const standing = known?.standing === undefined ? {} : { standing: known.standing };
    const survey = known?.kind === 'height' && known.survey !== undefined ? { survey: known.survey } : {};
    const taken: Measurement =
      from === ''
        ? { kind: 'height', point: point.id, height: reading, plusMinus: spread, ...survey, ...standing }
        : { kind: 'difference', from, to: point.id, rise: reading, plusMinus: spread, ...standing };
    const wrong = edit((p) => (index === null ? addMeasurement(p, taken) : changeMeasurement(p, index, taken)));
    if (wrong.length === 0) onEntered();
    return wrong;
  };
  return (
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
          return value === null ? [] : take(value, from, plusMinus);
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
          return value === null ? [] : take(value, chosen, spread);
        }}
      />
    </div>
  );
}
