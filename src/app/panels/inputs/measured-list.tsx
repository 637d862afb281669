import { removeMeasurement } from '../../../plan/edits/edit-water.ts';
import { measurementWords } from '../../../report/words/measure-words.ts';
import { editOrSay, showById } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';

/** Every level that was taken on site. New ones are entered at their point. */
export function MeasuredList() {
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
