import { accuracyFor } from '../../../evaluation/site/heights.ts';
import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import type { HeightConstants, TerrainReference } from '../../../plan/model/plan.ts';
import { unitWords } from '../../../report/words/question-words.ts';
import { spelled } from '../../../report/words/spelling.ts';
import { classTitle } from '../../../report/words/terrain-note-words.ts';
import { accuracyClasses } from '../../../terrain/accuracy/height-accuracy.ts';
import { USUAL_DOUBT } from '../../../terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../../terrain/grid/ground.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { edit } from '../../actions/edit-actions.ts';
import { askUnitsAgain } from '../../actions/terrain-actions.ts';
import { saidUnits } from '../../client/remembered-units.ts';
import { plan, terrain } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

const LABELS: readonly (readonly [keyof HeightConstants, string])[] = [
  ['nugget', 'Error of single cells'],
  ['near', 'Error shared nearby'],
  ['nearRange', 'Distance it fades over, nearby'],
  ['far', 'Error shared far and wide'],
  ['farRange', 'Distance it fades over, far and wide'],
  ['placement', 'Where a drawn point really is'],
  ['smoothingDoubt', 'Times the smoothing that the file shows'],
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
function AccuracyConstants({
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
      <summary>Advanced: how far the map heights are trusted</summary>
      <p class="note">
        How far heights are usually off. Worked out from published accuracies, not published themselves.
      </p>
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
          Use the usual figures again
        </button>
      )}
    </details>
  );
}

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
          label="Confidence needed"
          kind="share"
          value={confidence}
          units={units}
          note="a limit counts as kept (or broken) when its chance is at least this"
          onValue={(typed) => (typed === null ? [] : edit((p) => changeSettings(p, { confidence: typed })))}
        />
      </div>
      <AccuracyChoice />
      <TerrainFacts />
    </div>
  );
}

const INFERRED = '';

/** How far the heights are trusted: as inferred from the file, or by a class that the user knows to be right. */
function AccuracyChoice() {
  const about = terrain.value?.about;
  const reference = plan.value.terrain;
  if (about === undefined || reference === null) return null;
  const chosen = accuracyFor(plan.value, about);
  return (
    <div>
      <ChoiceField
        label="Accuracy of the heights"
        value={reference.accuracy ?? INFERRED}
        choices={[
          { value: INFERRED, words: `as inferred: ${classTitle(about.accuracy.id, plan.value.units)}` },
          ...accuracyClasses.map(({ id }) => ({ value: id, words: classTitle(id, plan.value.units) })),
        ]}
        onValue={(id) =>
          edit((p) => changeSettings(p, { terrain: { ...reference, accuracy: id === INFERRED ? null : id } }))
        }
      />
      <p class="note">{accuracyClasses.find(({ id }) => id === chosen.id)?.source}</p>
      <AccuracyConstants reference={reference} chosen={chosen} />
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
      {Object.entries(saidUnits.value).map(([file, unit]) => (
        <div key={file}>
          <dt>Unit of heights</dt>
          <dd>
            {spelled(unitWords(unit), plan.value.units)}, as you said of {file}{' '}
            <button type="button" onClick={() => void askUnitsAgain()}>
              Ask again
            </button>
          </dd>
        </div>
      ))}
      <div>
        <dt>Heights counted from</dt>
        <dd>{about.verticalDatum ?? 'not stated in the file'}</dd>
      </div>
    </dl>
  );
}
