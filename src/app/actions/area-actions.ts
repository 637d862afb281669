import type { Position } from '../../geodesy/position.ts';
import { addArea, changeArea, removeArea } from '../../plan/edits/edit-points.ts';
import type { AreaId } from '../../plan/model/plan.ts';
import type { AvoidedArea } from '../../siting/reach/site-window.ts';
import type { Problem } from '../../units/outcome.ts';
import { areaCorners, gatedArea } from '../state/place-store.ts';
import { announcement, history, tool } from '../state/store.ts';
import { edit, editOrSay } from './edit-actions.ts';

/** Begins an area: the map takes its corners until it is finished or given up. */
export function beginArea(): void {
  areaCorners.value = [];
  tool.value = { mark: 'corner' };
}

/** Begins a gate of an area: the map takes one place. */
export function beginGate(area: AreaId): void {
  gatedArea.value = area;
  tool.value = { mark: 'gate' };
}

/** Takes a place on the map as a corner of the area that is drawn, or as the gate that is looked for. */
export function markPlace(position: Position): void {
  const marking = tool.value;
  if (marking === 'select' || !('mark' in marking)) return;
  if (marking.mark === 'corner') {
    areaCorners.value = [...areaCorners.value, position];
    announcement.value = `Corner ${areaCorners.value.length}.`;
    return;
  }
  const id = gatedArea.value;
  leaveMarking();
  const area = history.value.present.areas.find((each) => each.id === id);
  if (area) editOrSay((plan) => changeArea(plan, area.id, { gates: [...area.gates, position] }));
}

export function finishArea(): void {
  const corners = areaCorners.value;
  if (editOrSay((plan) => addArea(plan, corners))) leaveMarking();
}

export function leaveMarking(): void {
  areaCorners.value = [];
  gatedArea.value = null;
  tool.value = 'select';
}

export function nameArea(id: AreaId, name: string): readonly Problem[] {
  return edit((plan) => changeArea(plan, id, { name }));
}

export function noteArea(id: AreaId, note: string): readonly Problem[] {
  return edit((plan) => changeArea(plan, id, { note }));
}

export function closeGates(id: AreaId): void {
  editOrSay((plan) => changeArea(plan, id, { gates: [] }));
}

export function deleteArea(id: AreaId): void {
  editOrSay((plan) => removeArea(plan, id));
}

/** The plan's areas as the searches take them. */
export function avoidedAreas(): readonly AvoidedArea[] {
  return history.value.present.areas.map(({ name, outline, gates }) => ({ name, rings: [outline], gates }));
}
