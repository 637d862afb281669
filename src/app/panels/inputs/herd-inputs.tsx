import { useId, useState } from 'preact/hooks';
import { herdRow } from '../../../handbook/livestock-needs.ts';
import { setHerd } from '../../../plan/edits/edit-water.ts';
import type { HerdGroup, UnitSystem } from '../../../plan/model/plan.ts';
import { animalChoices, animalNeed, groupLabel } from '../../../report/words/animal-words.ts';
import { LITRE_M3, US_GALLON_M3 } from '../../../units/factor.ts';
import { edit, sayRefusal } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { CountField } from '../fields/count-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { TextField } from '../fields/text-field.tsx';

/** A need to be typed over, round in the units that are shown. */
const FIRST_NEED = { metric: 40 * LITRE_M3, us: 10 * US_GALLON_M3 } as const;

/** Who drinks: animals by a row of the handbook, or by a need that is stated. */
export function HerdInputs() {
  const { herd, units } = plan.value;
  const [sought, setSought] = useState('');
  const id = useId();
  const set = (groups: readonly HerdGroup[]) => edit((p) => setHerd(p, groups));
  return (
    <div>
      {herd.map((group, index) => (
        <fieldset key={`${group.kind} ${index}`} class="reading">
          <legend>
            {groupLabel(group, units)}{' '}
            <button type="button" class="quiet danger" onClick={() => sayRefusal(set(herd.toSpliced(index, 1)))}>
              delete<span class="unseen"> group {index + 1}</span>
            </button>
          </legend>
          <div class="fields">
            <CountField
              label="How many"
              value={group.count}
              onValue={(count) => set(herd.with(index, { ...group, count }))}
            />
            {group.kind === 'own' ? (
              <OwnGroup group={group} onGroup={(next) => set(herd.with(index, next))} />
            ) : (
              <GroupNote row={group.row} />
            )}
          </div>
        </fieldset>
      ))}
      <div class="fields">
        <div class="field text">
          <label for={`${id}-sought`}>Search the animals</label>
          <input
            id={`${id}-sought`}
            type="search"
            autocomplete="off"
            value={sought}
            onInput={(event) => setSought(event.currentTarget.value)}
          />
        </div>
        <div class="field choice">
          <label for={`${id}-add`}>Add animals</label>
          <select
            id={`${id}-add`}
            value=""
            onChange={(event) => {
              const row = event.currentTarget.value;
              event.currentTarget.value = '';
              if (row !== '') sayRefusal(set([...herd, newGroup(row, units)]));
            }}
          >
            <option value="">choose a kind</option>
            <option value="own">with a need of your own</option>
            {animalChoices(units, sought).map(({ species, choices }) => (
              <optgroup key={species} label={species}>
                {choices.map(({ row, words }) => (
                  <option key={row} value={row}>
                    {words}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </div>
      </div>
    </div>
  );
}

const newGroup = (row: string, units: UnitSystem): HerdGroup =>
  row === 'own'
    ? { kind: 'own', label: 'Animals', needPerDay: FIRST_NEED[units], count: 1 }
    : { kind: 'row', row, count: 1 };

/** What one of them drinks, and who says so. */
function GroupNote({ row }: { readonly row: string }) {
  const known = herdRow(row);
  if (known === null) return null;
  return (
    <p class="note">
      {animalNeed(known, plan.value.units)} each. {known.source}
    </p>
  );
}

type OwnHerd = Extract<HerdGroup, { kind: 'own' }>;

function OwnGroup({
  group,
  onGroup,
}: {
  readonly group: OwnHerd;
  readonly onGroup: (next: HerdGroup) => ReturnType<typeof edit>;
}) {
  return (
    <>
      <TextField label="Called" value={group.label} onValue={(label) => onGroup({ ...group, label })} />
      <QuantityField
        label="Need a day, each"
        kind="daily-volume"
        value={group.needPerDay}
        units={plan.value.units}
        onValue={(needPerDay) => (needPerDay === null ? [] : onGroup({ ...group, needPerDay }))}
      />
    </>
  );
}
