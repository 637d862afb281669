import { fromVectorTileJs, type VectorTileFeatureLike } from '@maplibre/vt-pbf';

/** Coordinates across a vector tile. */
export const EXTENT = 4096;
const TILE_VERSION = 2;

export interface TileFeature {
  readonly kind: 'line' | 'polygon';
  /** Lines or rings in tile coordinates; a ring repeats its first point. */
  readonly parts: readonly (readonly (readonly [number, number])[])[];
  readonly properties: Readonly<Record<string, number | string | boolean>>;
}

/** Encodes layers of features as a Mapbox Vector Tile, version 2.1. */
export function encodeVectorTile(layers: Readonly<Record<string, readonly TileFeature[]>>): Uint8Array {
  const encoded: Record<string, ReturnType<typeof tileLayer>> = {};
  for (const [name, features] of Object.entries(layers)) encoded[name] = tileLayer(name, features);
  return fromVectorTileJs({ layers: encoded });
}

function tileLayer(name: string, features: readonly TileFeature[]) {
  return {
    version: TILE_VERSION,
    name,
    extent: EXTENT,
    length: features.length,
    feature: (index: number) => tileFeature(features[index]),
  };
}

function tileFeature(feature: TileFeature | undefined): VectorTileFeatureLike {
  const parts = feature?.parts ?? [];
  const points = parts.map((part) => part.map(([x, y]) => ({ x: Math.round(x), y: Math.round(y) })));
  return {
    type: feature?.kind === 'polygon' ? 3 : 2,
    properties: { ...feature?.properties },
    id: undefined,
    extent: EXTENT,
    // The encoder reads x and y alone of each point.
    loadGeometry: () => points as unknown as ReturnType<VectorTileFeatureLike['loadGeometry']>,
  };
}
