import { movePoint, renamePoint } from '../../../plan/edits/edit-points.ts';
import type { PlanPoint } from '../../../plan/model/plan.ts';
import { levelWords } from '../../../report/tables/plan-tables.ts';
import {
  standpipeCourseSentence,
  standpipeFacts,
  standpipePlacesSentence,
} from '../../../report/tables/standpipe-facts.ts';
import { firstProblem } from '../../../report/words/refusal-words.ts';
import { POINT_WORDS } from '../../../report/words/role-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { moveToDevice } from '../../actions/device-actions.ts';
import { edit, remove } from '../../actions/edit-actions.ts';
import { standAt } from '../../actions/jobs-actions.ts';
import { device } from '../../state/device-store.ts';
import { evaluation, plan } from '../../state/store.ts';
import { RoleIcon } from '../fields/role-icon.tsx';
import { TextField } from '../fields/text-field.tsx';
import { MeasureLevel } from './measure-level.tsx';
import { PartCautions } from './part-cautions.tsx';
import { PointHeights } from './point-heights.tsx';
import { PositionFields } from './position-fields.tsx';

/** Everything a point is, as numbers that can be typed over. */
export function PointDetails({ point }: { readonly point: PlanPoint }) {
  const words = POINT_WORDS[point.role];
  return (
    <div class="details">
      <h2>
        <RoleIcon of={point.role} /> {point.name}
      </h2>
      <p class="note">
        {words.name}. {words.plain}
      </p>
      <TextField label="Name" value={point.name} onValue={(name) => edit((p) => renamePoint(p, point.id, name))} />
      <h3>Place</h3>
      <PositionFields
        label={`Position of ${point.name}`}
        position={point.position}
        onPosition={(position) => firstProblem(edit((p) => movePoint(p, point.id, position)))}
      />
      {device.value.kind === 'shown' ? (
        <p class="row-end">
          <button type="button" class="quiet" onClick={() => moveToDevice(point.id)}>
            Move it to where I am
          </button>
        </p>
      ) : null}
      <GroundLines point={point} />
      <h3>Heights above the ground here</h3>
      <PointHeights point={point} />
      <StandpipeFacts id={point.id} />
      <MeasureLevel point={point} />
      <PartCautions role={point.role} />
      <p class="row-end">
        <button type="button" class="quiet danger" onClick={() => remove({ kind: 'point', id: point.id })}>
          Delete {point.name}
        </button>
      </p>
    </div>
  );
}

function GroundLines({ point }: { readonly point: PlanPoint }) {
  const result = evaluation.value?.points.find(({ id }) => id === point.id);
  const { units } = plan.value;
  if (result === undefined) return null;
  return (
    <dl class="facts">
      <div data-field="ground" data-value={result.ground ?? ''}>
        <dt>{TERMS.ground.plain}</dt>
        <dd>
          {result.ground === null ? 'no height here' : writeQuantity(result.ground, 'height', units)}
          {result.groundFrom === 'measured' ? (
            <>
              {' '}
              <em>measured</em>
            </>
          ) : null}
        </dd>
      </div>
      {result.level === null ? null : (
        <div data-field="level" data-value={result.level}>
          <dt>{TERMS.level.plain}</dt>
          <dd>{levelWords(point.role, result.level, units)}</dd>
        </div>
      )}
    </dl>
  );
}

/** How the standpipe stands and moves while the pump runs, and where else it could stand. */
function StandpipeFacts({ id }: { readonly id: string }) {
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
