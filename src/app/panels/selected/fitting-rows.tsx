import { fittingRow, fittingRows } from '../../../handbook/fitting-loss.ts';
import { setFittings } from '../../../plan/edits/edit-routes.ts';
import type { FittingCount, PlanRoute } from '../../../plan/model/plan.ts';
import { edit } from '../../actions/edit-actions.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { CountField } from '../fields/count-field.tsx';

/** How many of each fitting a route has. */
export function FittingRows({ route }: { readonly route: PlanRoute }) {
  const set = (fittings: readonly FittingCount[]) => edit((p) => setFittings(p, route.id, fittings));
  const unused = fittingRows().filter(({ id }) => !route.fittings.some(({ fitting }) => fitting === id));
  return (
    <div class="fitting-rows">
      {route.fittings.map((entry) => (
        <CountField
          key={entry.fitting}
          label={fittingRow(entry.fitting)?.label ?? entry.fitting}
          value={entry.count}
          onValue={(count) => set(route.fittings.map((each) => (each === entry ? { ...entry, count } : each)))}
        />
      ))}
      {route.fittings.length === 0 ? <p class="note">None counted.</p> : null}
      <ChoiceField
        label="Add a fitting"
        value=""
        choices={[{ value: '', words: 'choose one' }, ...unused.map(({ id, label }) => ({ value: id, words: label }))]}
        onValue={(fitting) => (fitting === '' ? [] : set([...route.fittings, { fitting, count: 1 }]))}
      />
    </div>
  );
}
