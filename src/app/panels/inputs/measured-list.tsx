import { changeMeasurement } from '../../../plan/edits/edit-water.ts';
import type { Measurement } from '../../../plan/model/plan.ts';
import { measurementWords } from '../../../report/words/measure-words.ts';
import { edit, editOrSay, showById } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';

/** Every level that was taken on site. New ones are entered at their point. */
export function MeasuredList() {
  const { measurements, units } = plan.value;
  if (measurements.length === 0) {
    return <p class="note">Nothing yet. Select a point and open “Measured on site” there to enter a level.</p>;
  }
  return (
    <ul class="measured-list">
      {measurements.map((taken, index) => {
        const id = taken.kind === 'height' ? taken.point : taken.to;
        return (
          <li key={`${index} ${id}`}>
            <button type="button" class="link" onClick={() => showById(id)}>
              {measurementWords(taken, plan.value, units)}
            </button>{' '}
            <button
              type="button"
              class="quiet danger"
              onClick={() => editOrSay((p) => changeMeasurement(p, index, null))}
            >
              remove
            </button>
            <StandingOfReading taken={taken} index={index} />
          </li>
        );
      })}
    </ul>
  );
}

/** Name that the zero of a survey of its own gets here; a file may name several. */
const OWN_SURVEY = 'own';

type Standing = 'weighed' | 'kept' | 'set-aside' | 'own-survey';

const WEIGHED = { value: 'weighed', words: 'counts with the rest' } as const;
const KEPT = { value: 'kept', words: 'checked, it is right' } as const;
const ASIDE = { value: 'set-aside', words: 'left out' } as const;
const OWN = { value: 'own-survey', words: 'counts from a zero of its own' } as const;

/** How a reading counts. */
function StandingOfReading({ taken, index }: { readonly taken: Measurement; readonly index: number }) {
  const own = taken.kind === 'height' && taken.survey !== undefined;
  const value: Standing = taken.standing ?? (own ? 'own-survey' : 'weighed');
  return (
    <ChoiceField<Standing>
      label="Counts"
      value={value}
      choices={taken.kind === 'height' ? [WEIGHED, KEPT, ASIDE, OWN] : [WEIGHED, KEPT, ASIDE]}
      onValue={(standing) => edit((p) => changeMeasurement(p, index, standingAs(taken, standing)))}
    />
  );
}

function standingAs(taken: Measurement, standing: Standing): Measurement {
  const { standing: _before, ...reading } = taken;
  if (standing === 'kept' || standing === 'set-aside') return { ...reading, standing };
  if (reading.kind === 'difference') return reading;
  const { survey, ...level } = reading;
  return standing === 'own-survey' ? { ...level, survey: survey ?? OWN_SURVEY } : level;
}
