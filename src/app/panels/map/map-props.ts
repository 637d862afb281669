import type { Position } from '../../../geodesy/position.ts';
import { pointerNoteOf, readoutOf } from '../../../report/words/pointer-words.ts';
import { reachReadout } from '../../../report/words/reach-words.ts';
import { leaveMarking, markPlace } from '../../actions/area-actions.ts';
import { laidOver } from '../../actions/comparison.ts';
import { dragPoint, dragVertex, drawLine, placePoint, putVertex, remove, select } from '../../actions/edit-actions.ts';
import { placeTankWithLine } from '../../actions/place-actions.ts';
import { webTiles, webTilesNote } from '../../actions/tiles-actions.ts';
import { pickTool, showCursor } from '../../actions/view-actions.ts';
import { device } from '../../state/device-store.ts';
import { job } from '../../state/jobs-store.ts';
import type { MapViewProps } from '../../state/map-view-props.ts';
import { areaCorners, ghost, reachLegend, reachTiles, shownReach } from '../../state/place-store.ts';
import { pointedRemedy } from '../../state/remedy-store.ts';
import { ringed, spot } from '../../state/spot-store.ts';
import {
  cursor,
  evaluation,
  grounded,
  look,
  panel,
  picture,
  placingNote,
  plan,
  plansOpened,
  pointerNote,
  readout,
  selection,
  terrain,
  tool,
} from '../../state/store.ts';

let asking = false;
let next: Position | null = null;

/** Says what lies under the pointer; the newest place wins. */
function pointAt(position: Position | null): void {
  next = position;
  if (position === null) {
    readout.value = null;
    placingNote.value = null;
    return;
  }
  if (terrain.value === null) readout.value = readoutOf({ position, ground: null, units: plan.value.units });
  else if (!asking) void answer();
}

async function answer(): Promise<void> {
  asking = true;
  try {
    while (next !== null) await answerOne(next);
  } finally {
    asking = false;
  }
}

async function answerOne(position: Position): Promise<void> {
  const opened = terrain.value;
  const ground = opened === null ? null : await groundOf(opened, position);
  if (next === null) return;
  if (next === position) next = null;
  const { units } = plan.value;
  const reached = opened === null || shownReach.value === null ? null : await reachOf(opened, position);
  if (next !== null && next !== position) return;
  const points = evaluation.value?.points ?? [];
  // While a place is looked for, every place under the pointer is one where a pump could stand.
  const looking = panel.value === 'jobs' && job.value === 'place';
  const fall = looking ? pointerNoteOf({ placing: 'pump', ground, points, units }) : null;
  readout.value = [
    ...readoutOf({ position, ground, units }),
    ...(fall === null ? [] : [fall]),
    ...(reached === null ? [] : reachReadout(reached, units)),
  ];
  const placing = typeof tool.value === 'object' && 'place' in tool.value ? tool.value.place : null;
  placingNote.value = pointerNoteOf({ placing, ground, points, units });
}

/** What would arrive under the pointer; a terrain that was closed meanwhile says nothing. */
async function reachOf(opened: NonNullable<typeof terrain.value>, position: Position) {
  try {
    return await opened.reachAt(position);
  } catch (error) {
    if (terrain.value !== opened) return null;
    throw error;
  }
}

/** Height under the pointer; a terrain that was closed meanwhile has none. */
async function groundOf(opened: NonNullable<typeof terrain.value>, position: Position): Promise<number | null> {
  try {
    const [point] = await opened.groundAt([position]);
    return point?.ground ?? null;
  } catch (error) {
    if (terrain.value !== opened) return null;
    throw error;
  }
}

const NO_GROUND: MapViewProps['grounds'] = new Map();

/** What the map is told and whom it tells. */
export function useMapProps(): MapViewProps {
  return {
    plan: plan.value,
    evaluation: evaluation.value,
    grounds: grounded.value?.ground.lines ?? NO_GROUND,
    terrain: terrain.value?.about ?? null,
    picture: picture.value?.about ?? null,
    reliefTiles: terrain.value,
    pictureTiles: picture.value,
    webTiles: webTiles.value,
    webTilesNote: webTilesNote.value,
    reachTiles: reachTiles.value,
    reachLegend: reachLegend.value,
    opened: plansOpened.value,
    look: look.value,
    tool: tool.value,
    selection: selection.value,
    cursor: cursor.value,
    faint: pointedRemedy.value?.after.plan ?? ghost.value ?? laidOver.value?.grounded.plan ?? null,
    ringed: ringed.value,
    spot: spot.value,
    device: device.value.kind === 'shown' ? device.value.fix : null,
    readout: readout.value,
    pointerNote: pointerNote.value,
    corners: areaCorners.value,
    onMark: markPlace,
    onPlace: (role, position) =>
      role === 'tank' && reachTiles.value !== null ? void placeTankWithLine(position) : placePoint(role, position),
    onDrawn: (role, vertices, from, to) => drawLine({ role, vertices, from, to }),
    onDragPoint: dragPoint,
    onDragVertex: dragVertex,
    onInsertVertex: putVertex,
    onDelete: remove,
    onSelect: select,
    onHover: showCursor,
    onPointer: pointAt,
    onCancelTool: () => {
      leaveMarking();
      pickTool('select');
    },
  };
}
