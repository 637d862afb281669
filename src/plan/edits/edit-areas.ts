import type { Position } from '../../geodesy/position.ts';
import type { AreaId, Plan, PlanArea } from '../model/plan.ts';
import { type Edit, refused, withChanges, withEntry } from './edit.ts';
import { finishEdit } from './finish-edit.ts';
import { nameFromId, newFeatureId } from './new-id.ts';

/** Adds an area that no line may cross; `plan.areas.at(-1)` of the result is the new one. */
export function addArea(plan: Plan, outline: readonly Position[]): Edit {
  if (outline.length < 3) return refused('few-corners', `${outline.length} corners`, 'three or more');
  const id = newFeatureId({ ...plan, points: [...plan.points, ...plan.areas.map(asTaken)] }, 'area');
  const area: PlanArea = { id, name: nameFromId(id), note: '', outline, gates: [] };
  return finishEdit(plan, { ...plan, areas: [...plan.areas, area] }, { code: 'add-area', name: area.name });
}

/** An area takes an id of the space that points and routes share. */
const asTaken = ({ id }: PlanArea) => ({ id }) as Plan['points'][number];

export function changeArea(plan: Plan, id: AreaId, changes: Partial<Omit<PlanArea, 'id'>>): Edit {
  const area = plan.areas.find((each) => each.id === id);
  if (!area) return refused('unknown-reference', id, 'an area of this plan');
  const areas = withEntry(plan.areas, area, withChanges<PlanArea>(area, changes));
  return finishEdit(plan, { ...plan, areas }, { code: 'change-area', name: area.name });
}

export function removeArea(plan: Plan, id: AreaId): Edit {
  const area = plan.areas.find((each) => each.id === id);
  if (!area) return refused('unknown-reference', id, 'an area of this plan');
  const areas = plan.areas.filter((each) => each !== area);
  return finishEdit(plan, { ...plan, areas }, { code: 'remove-area', name: area.name });
}
