import type { FeatureCollection } from 'geojson';
import type { Evaluation } from '../../evaluation/result/evaluation.ts';
import { destination } from '../../geodesy/geodesic.ts';
import type { Position } from '../../geodesy/position.ts';
import type { Plan, PointId, PointRole, RouteId, RouteRole, UnitSystem } from '../../plan/model/plan.ts';
import type { PictureAbout } from '../../relief/levels/picture-about.ts';
import type { ReachLegend } from '../../report/words/reach-words.ts';
import type { GroundLine, TerrainAbout } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PictureTiles, ReachTiles, ReliefTiles, WebTiles } from '../client/tile-service.ts';

/** A place on the map that words speak of; a new one each time it is asked for, so that the map goes there again. */
export interface Spot {
  readonly position: Position;
}

interface DevicePlace {
  readonly position: Position;
  /** Radius within which it surely is, m. */
  readonly accuracy: Metres;
}

/** Corners of the ring that stands for a circle. */
const CORNERS = 48;

/** Where the device is, and the ring within which it says it is. */
export function deviceFeatures(place: DevicePlace | null): FeatureCollection {
  if (place === null) return { type: 'FeatureCollection', features: [] };
  const { position, accuracy } = place;
  const ring = Array.from({ length: CORNERS + 1 }, (_, at) => {
    const { lon, lat } = destination(position, { distance: accuracy, azimuth: (360 * (at % CORNERS)) / CORNERS });
    return [lon, lat];
  });
  return {
    type: 'FeatureCollection',
    features: [
      { type: 'Feature', properties: {}, geometry: { type: 'Polygon', coordinates: [ring] } },
      { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [position.lon, position.lat] } },
    ],
  };
}

export type MapTheme = 'light' | 'dark';

export interface MapLook {
  /** Strength of the hillshade, 0 to 1. */
  readonly hillshade: number;
  readonly contours: boolean;
  /** Whether slopes are shown in colours. */
  readonly slopes: boolean;
  /** Strength of the aerial picture and of map tiles, 0 to 1. */
  readonly picture: number;
  readonly theme: MapTheme;
  readonly units: UnitSystem;
}

export type MapTool =
  | 'select'
  | { readonly place: PointRole }
  | { readonly draw: RouteRole }
  /** A corner of an area that must not be crossed, or a gate of one. */
  | { readonly mark: 'corner' | 'gate' };

export type MapSelection =
  | { readonly kind: 'point'; readonly id: PointId }
  | { readonly kind: 'route'; readonly id: RouteId; readonly vertex: number | null };

/** A place along a route, shared with the profile figure. */
export interface RouteCursor {
  readonly route: RouteId;
  /** Horizontal distance from the start of the route, m. */
  readonly at: Metres;
}

/** `cancel` follows `move` when the user gave up: the plan is to look as it did before the first `move`. */
export type DragPhase = 'move' | 'end' | 'cancel';

/** What the map shows and what it tells; it computes no number of the plan and keeps no state of it. */
export interface MapViewProps {
  readonly plan: Plan;
  readonly evaluation: Evaluation | null;
  /** The ground along each route, for the cursor, for hovering and for the summits; empty without terrain. */
  readonly grounds: ReadonlyMap<RouteId, GroundLine>;
  readonly terrain: TerrainAbout | null;
  readonly picture: PictureAbout | null;
  /** Where the tiles come from: the opened terrain and picture of the terrain client; null when none is open. */
  readonly reliefTiles: ReliefTiles | null;
  readonly pictureTiles: PictureTiles | null;
  /** Null while map tiles are off, which they are until the user switches them on. */
  readonly webTiles: WebTiles | null;
  /** What would arrive, and what its colours mean; null while it is not shown. */
  readonly reachTiles: ReachTiles | null;
  readonly reachLegend: ReachLegend | null;
  /** Whose the map tiles are, and what is wrong with them; null for none. */
  readonly webTilesNote: { readonly attribution: string; readonly failure: string | null } | null;
  /** Counts the plans that were opened; the map fits the plan when it changes. */
  readonly opened: number;
  readonly look: MapLook;
  readonly tool: MapTool;
  readonly selection: MapSelection | null;
  readonly cursor: RouteCursor | null;
  /** Another plan whose lines are shown faintly beneath those of this one; null for none. */
  readonly faint: Plan | null;
  /** Places that words beside the map speak of, each with a ring. */
  readonly ringed: readonly Position[];
  /** The place that was asked to be shown; the map goes there when it is out of sight. */
  readonly spot: Spot | null;
  /** Where the device is, once the user asked; null otherwise. */
  readonly device: DevicePlace | null;
  /** Ready-made lines about the pointer's place, shown in the corner of the map; null for none. */
  readonly readout: readonly string[] | null;
  /** Ready-made text beside the pointer, such as the fall while a pump is placed; null for none. */
  readonly pointerNote: string | null;
  /** Corners of an area that is being drawn. */
  readonly corners: readonly Position[];
  readonly onMark: (position: Position) => void;
  readonly onPlace: (role: PointRole, position: Position) => void;
  /** Ends that met a fitting point carry its id, and the end vertex lies on that point. */
  readonly onDrawn: (
    role: RouteRole,
    vertices: readonly Position[],
    fromId: PointId | null,
    toId: PointId | null,
  ) => void;
  readonly onDragPoint: (id: PointId, position: Position, phase: DragPhase) => void;
  /** Only inner vertices are dragged; an end moves with its point. */
  readonly onDragVertex: (route: RouteId, index: number, position: Position, phase: DragPhase) => void;
  /** `index` is the place the new vertex takes. */
  readonly onInsertVertex: (route: RouteId, index: number, position: Position) => void;
  readonly onDelete: (what: MapSelection) => void;
  readonly onSelect: (what: MapSelection | null) => void;
  /** The pointer is over a route; null when it left. */
  readonly onHover: (route: RouteId | null, at: Metres | null) => void;
  readonly onPointer: (position: Position | null) => void;
  readonly onCancelTool: () => void;
}
