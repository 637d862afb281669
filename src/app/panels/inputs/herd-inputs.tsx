import { herdRow, herdRows } from '../../../handbook/livestock-needs.ts';
import { setHerd } from '../../../plan/edits/edit-water.ts';
import type { HerdGroup } from '../../../plan/model/plan.ts';
import { edit, sayRefusal } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { CountField } from '../fields/count-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { TextField } from '../fields/text-field.tsx';

const FIRST_OWN: HerdGroup = { kind: 'own', label: 'Animals', needPerDay: 0.04, count: 1 };

/** Who drinks: animals by a row of the handbook, or by a need that is stated. */
export function HerdInputs() {
  const { herd } = plan.value;
  const set = (groups: readonly HerdGroup[]) => edit((p) => setHerd(p, groups));
  return (
    <div>
      {herd.map((group, index) => (
        <fieldset key={`${group.kind} ${index}`} class="reading">
          <legend>
            {group.kind === 'row' ? (herdRow(group.row)?.label ?? group.row) : group.label}{' '}
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
              <p class="note">{herdRow(group.row)?.source}</p>
            )}
          </div>
        </fieldset>
      ))}
      <ChoiceField
        label="Add animals"
        value=""
        choices={[
          { value: '', words: 'choose a kind' },
          { value: 'own', words: 'with a need of your own' },
          ...herdRows().map(({ id, species, label }) => ({ value: id, words: `${species}: ${label}` })),
        ]}
        onValue={(row) => {
          if (row === '') return [];
          return set([...herd, row === 'own' ? FIRST_OWN : { kind: 'row', row, count: 1 }]);
        }}
      />
    </div>
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
