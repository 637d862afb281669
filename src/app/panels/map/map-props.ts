import { leaveMarking, markPlace } from '../../actions/area-actions.ts';
import { laidOver } from '../../actions/comparison.ts';
import { dragPoint, dragVertex, drawLine, placePoint, putVertex, remove, select } from '../../actions/edit-actions.ts';
import { placeTankWithLine } from '../../actions/place-actions.ts';
import { pointAt } from '../../actions/pointer-actions.ts';
import { webTiles, webTilesNote } from '../../actions/tiles-actions.ts';
import { pickTool, showCursor } from '../../actions/view-actions.ts';
import { device } from '../../state/device-store.ts';
import type { MapViewProps } from '../../state/map-view-props.ts';
import { areaCorners, ghost, reachLegend, reachTiles } from '../../state/place-store.ts';
import {
  cursor,
  evaluation,
  grounded,
  look,
  picture,
  plan,
  pointerNote,
  readout,
  selection,
  terrain,
  tool,
} from '../../state/store.ts';

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
    look: look.value,
    tool: tool.value,
    selection: selection.value,
    cursor: cursor.value,
    faint: ghost.value ?? laidOver.value?.grounded.plan ?? null,
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
