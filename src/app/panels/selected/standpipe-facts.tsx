import {
  standpipeCourseSentence,
  standpipeFacts,
  standpipePlacesSentence,
} from '../../../report/tables/standpipe-facts.ts';
import { standAt } from '../../actions/jobs-actions.ts';
import { evaluation, plan } from '../../state/store.ts';

/** How the standpipe stands and moves while the pump runs, and where else it could stand. */
export function StandpipeFacts({ id }: { readonly id: string }) {
  const result = evaluation.value?.standpipe ?? null;
  if (result === null || result.id !== id) return null;
  const { units } = plan.value;
  const places = standpipePlacesSentence(result, units);
  return (
    <>
      <h3>While the pump runs</h3>
      <dl class="facts">
        {standpipeFacts(result, units).map(({ field, name, words, value }) => (
          <div key={field} data-field={field} data-value={value}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <p>{standpipeCourseSentence(result, units)}</p>
      {places === null ? null : <p>{places}</p>}
      {result.places?.best == null ? null : <StandThere id={id} driveLength={result.places.best.driveLength} />}
    </>
  );
}

/** Moves the standpipe along the drawn way to the best place. */
function StandThere({ id, driveLength }: { readonly id: string; readonly driveLength: number }) {
  return (
    <p class="buttons">
      <button type="button" onClick={() => standAt(id, driveLength)}>
        Stand it there
      </button>
    </p>
  );
}
