import type { FeatureCollection } from 'geojson';
import type { MapViewProps } from '../state/map-view-props.ts';
import { deviceFeatures } from '../state/map-view-props.ts';
import type { DrawPhase } from './draw-route.ts';
import {
  areaFeatures,
  caughtFeatures,
  cursorFeatures,
  faintFeatures,
  outlineFeatures,
  pointFeatures,
  ringedFeatures,
  routeFeatures,
  sketchFeatures,
  turningFeatures,
  vertexFeatures,
} from './plan-features.ts';

type DrawnProps = Pick<
  MapViewProps,
  'plan' | 'selection' | 'evaluation' | 'grounds' | 'cursor' | 'terrain' | 'device' | 'faint' | 'corners' | 'ringed'
>;

/** All that the drawn things of the map depend on. */
export interface DrawnInputs extends DrawnProps, DrawPhase {}

interface Drawing {
  readonly needs: readonly (keyof DrawnInputs)[];
  readonly features: (inputs: DrawnInputs) => FeatureCollection;
}

/** Each drawn source with what it depends on, so that a moving pointer does not redraw five hundred points. */
const DRAWINGS = {
  faint: { needs: ['faint'], features: ({ faint }) => faintFeatures(faint) },
  ringed: { needs: ['ringed'], features: ({ ringed }) => ringedFeatures(ringed) },
  areas: { needs: ['plan', 'corners'], features: ({ plan, corners }) => areaFeatures(plan, corners) },
  routes: {
    needs: ['plan', 'selection'],
    features: ({ plan, selection }) => routeFeatures(plan, selection),
  },
  points: {
    needs: ['plan', 'selection', 'targets'],
    features: ({ plan, selection, targets }) => pointFeatures(plan, selection, targets),
  },
  vertices: {
    needs: ['plan', 'selection'],
    features: ({ plan, selection }) => vertexFeatures(plan, selection),
  },
  turnings: {
    needs: ['evaluation', 'grounds'],
    features: ({ evaluation, grounds }) => turningFeatures(evaluation, grounds),
  },
  cursor: {
    needs: ['cursor', 'grounds'],
    features: ({ cursor, grounds }) => cursorFeatures(cursor, grounds),
  },
  device: { needs: ['device'], features: ({ device }) => deviceFeatures(device) },
  snap: { needs: ['caught'], features: ({ caught }) => caughtFeatures(caught) },
  sketch: { needs: ['keyed'], features: ({ keyed }) => sketchFeatures(keyed) },
  outline: { needs: ['terrain'], features: ({ terrain }) => outlineFeatures(terrain) },
} as const satisfies Readonly<Record<string, Drawing>>;

/** Sources whose data the map sets itself. */
export type DrawnSource = keyof typeof DRAWINGS;
export type DrawnData = Readonly<Record<DrawnSource, FeatureCollection>>;

export const DRAWN_SOURCES = Object.keys(DRAWINGS) as readonly DrawnSource[];

/** The features of a source; null when nothing that it depends on has changed. */
export function changedFeatures(
  source: DrawnSource,
  before: DrawnInputs | null,
  after: DrawnInputs,
): FeatureCollection | null {
  const { needs, features }: Drawing = DRAWINGS[source];
  if (before && needs.every((need) => before[need] === after[need])) return null;
  return features(after);
}
