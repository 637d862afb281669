import { beforeEach, describe, expect, it } from 'vitest';
import {
  dragPoint,
  drawLine,
  edit,
  joinPoints,
  placePoint,
  putVertex,
  redoStep,
  remove,
  select,
  showById,
  undoStep,
} from '../../src/app/actions/edit-actions.ts';
import { newPlan } from '../../src/app/actions/plan-file-actions.ts';
import { pickTool } from '../../src/app/actions/view-actions.ts';
import {
  announcement,
  dragged,
  history,
  panel,
  plan,
  refusal,
  selection,
  tool,
  unsaved,
} from '../../src/app/state/store.ts';
import { changeSettings } from '../../src/plan/edits/edit-settings.ts';

const spring = { lon: -30, lat: 38 };
const pump = { lon: -29.999, lat: 38 };

beforeEach(() => {
  newPlan();
  refusal.value = [];
});

describe('working on the plan', () => {
  it('places a point, selects it and lays the tool down', () => {
    pickTool({ place: 'source' });
    placePoint('source', spring);
    expect(plan.value.points.map(({ id }) => id)).toEqual(['source-1']);
    expect(selection.value).toEqual({ kind: 'point', id: 'source-1' });
    expect(tool.value).toBe('select');
    expect(announcement.value).toBe('place Source 1');
    expect(unsaved.value).toBe(true);
  });

  it('keeps the open panel while the map is worked on, and turns to the details when a name is chosen', () => {
    panel.value = 'answer';
    placePoint('source', spring);
    expect(panel.value).toBe('answer');
    showById('source-1');
    expect(panel.value).toBe('selected');
  });

  it('makes one step of a whole drag and shows the plan as it goes', () => {
    placePoint('source', spring);
    const steps = history.value.past.length;
    for (const lon of [-29.9, -29.8, -29.7]) {
      dragPoint('source-1', { lon, lat: 38 }, 'move');
      expect(plan.value.points[0]?.position.lon).toBe(lon);
      expect(dragged.value).toBe('source-1');
      expect(history.value.past).toHaveLength(steps);
    }
    dragPoint('source-1', { lon: -29.6, lat: 38 }, 'end');
    expect(history.value.past).toHaveLength(steps + 1);
    expect(dragged.value).toBeNull();
    undoStep();
    expect(plan.value.points[0]?.position).toEqual(spring);
    redoStep();
    expect(plan.value.points[0]?.position.lon).toBe(-29.6);
  });

  it('leaves everything as it was when a drag is given up', () => {
    placePoint('source', spring);
    const before = history.value;
    dragPoint('source-1', { lon: -29.9, lat: 38 }, 'move');
    dragPoint('source-1', { lon: -29.9, lat: 38 }, 'cancel');
    expect(plan.value).toBe(before.present);
    expect(history.value.past).toHaveLength(before.past.length);
  });

  it('says what is missing when a drawn line ends nowhere, and draws nothing', () => {
    placePoint('source', spring);
    drawLine({ role: 'drive', vertices: [spring, pump], from: 'source-1', to: null });
    expect(refusal.value.map(({ code }) => code)).toEqual(['loose-end']);
    expect(plan.value.routes).toHaveLength(0);
  });

  it('lays a line straight, bends it, and takes the bend away', () => {
    placePoint('source', spring);
    placePoint('pump', pump);
    joinPoints({ role: 'drive', from: 'source-1', to: 'pump-1', between: [] });
    expect(selection.value).toEqual({ kind: 'route', id: 'drive-1', vertex: null });
    putVertex('drive-1', 1, { lon: -29.9995, lat: 38.0001 });
    expect(plan.value.routes[0]?.vertices).toHaveLength(3);
    expect(selection.value).toEqual({ kind: 'route', id: 'drive-1', vertex: 1 });
    remove({ kind: 'route', id: 'drive-1', vertex: 1 });
    expect(plan.value.routes[0]?.vertices).toEqual([spring, pump]);
    expect(selection.value).toEqual({ kind: 'route', id: 'drive-1', vertex: null });
  });

  it('deletes a point with its lines, selects nothing then, and brings all of it back', () => {
    placePoint('source', spring);
    placePoint('pump', pump);
    joinPoints({ role: 'drive', from: 'source-1', to: 'pump-1', between: [] });
    const before = plan.value;
    select({ kind: 'point', id: 'pump-1' });
    remove({ kind: 'point', id: 'pump-1' });
    expect(plan.value.routes).toHaveLength(0);
    expect(selection.value).toBeNull();
    undoStep();
    expect(plan.value).toBe(before);
    expect(announcement.value).toBe('Undone: delete Pump 1');
  });

  it('hands back why a value was refused and keeps the plan', () => {
    const before = plan.value;
    const problems = edit((present) => changeSettings(present, { confidence: 7 }));
    expect(problems).toHaveLength(1);
    expect(plan.value).toBe(before);
    expect(unsaved.value).toBe(false);
  });
});
