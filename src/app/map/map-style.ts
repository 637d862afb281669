import type { SourceSpecification, StyleSpecification } from 'maplibre-gl';
import type { Position } from '../../geodesy/position.ts';
import { DEGREE } from '../../geodesy/wgs84.ts';
import type { PictureAbout } from '../../relief/levels/picture-about.ts';
import type { TerrainAbout } from '../../terrain/grid/ground.ts';
import type { Metres } from '../../units/quantity.ts';
import type { PictureTiles, ReachTiles, ReliefTiles, WebTiles } from '../client/tile-service.ts';
import type { MapLook } from '../state/map-view-props.ts';
import type { DrawnData } from './drawn-sources.ts';
import { mapLayers } from './map-layers.ts';
import type { TileProtocol } from './tile-protocol.ts';

export interface StyleInputs {
  readonly look: MapLook;
  readonly terrain: TerrainAbout | null;
  readonly picture: PictureAbout | null;
  readonly reliefTiles: ReliefTiles | null;
  readonly pictureTiles: PictureTiles | null;
  readonly webTiles: WebTiles | null;
  readonly reachTiles: ReachTiles | null;
  readonly drawn: DrawnData;
  readonly protocol: TileProtocol;
  readonly pixelRatio: number;
}

const TILE = 256;
/** Ground length of the equator, m: that of the sphere of Web Mercator. */
const EQUATOR: Metres = 2 * Math.PI * 6378137;
/** Beyond this many pixels to a cell the map enlarges the last tiles instead of asking for finer ones. */
const PIXELS_PER_CELL = 2;
const CONTOUR_TILE = 512;
/** Beyond this many pixels to a cell contour lines only become longer. */
const CONTOUR_PIXELS_PER_CELL = 8;
const DEEPEST_ZOOM = 20;

/** The whole style of the map: what is open as sources, what is wanted as layers. */
export function mapStyle(inputs: StyleInputs): StyleSpecification {
  const sources: Record<string, SourceSpecification> = {};
  for (const [name, data] of Object.entries(inputs.drawn)) sources[name] = { type: 'geojson', data };
  addTerrainSources(sources, inputs);
  addPictureSource(sources, inputs);
  const { webTiles, protocol } = inputs;
  if (webTiles)
    sources.web = { type: 'raster', tiles: [protocol.webUrl(webTiles.key)], tileSize: TILE, maxzoom: DEEPEST_ZOOM };
  const layers = mapLayers(inputs.look).filter((layer) => !('source' in layer) || String(layer.source) in sources);
  return { version: 8, sources, layers };
}

function addTerrainSources(sources: Record<string, SourceSpecification>, inputs: StyleInputs): void {
  const { terrain, reliefTiles, protocol, look } = inputs;
  if (!terrain || !reliefTiles) return;
  const extent = boundsOf(terrain.files.length === 1 ? terrain.outline : []);
  const cell = Math.min(terrain.cell.width, terrain.cell.height);
  const latitude = terrain.outline[0]?.lat ?? 0;
  const covered = (inputs.pictureTiles !== null || inputs.webTiles !== null) && look.picture > 0;
  const colours = covered ? (`${look.theme}-over-picture` as const) : look.theme;
  const size = TILE * inputs.pixelRatio;
  const pixels = {
    type: 'raster',
    tileSize: TILE,
    maxzoom: zoomOf(cell / PIXELS_PER_CELL, latitude, TILE),
    ...extent,
  } as const;
  sources.relief = { ...pixels, tiles: [protocol.reliefUrl(reliefTiles.key, colours, size)] };
  if (look.slopes) sources.slope = { ...pixels, tiles: [protocol.slopeUrl(reliefTiles.key, look.theme, size)] };
  const { reachTiles } = inputs;
  if (reachTiles) sources.reach = { ...pixels, tiles: [protocol.reachUrl(reachTiles.key, look.theme, size)] };
  sources.contour = {
    type: 'vector',
    tiles: [protocol.contourUrl(reliefTiles.key, look.units)],
    maxzoom: zoomOf(cell / CONTOUR_PIXELS_PER_CELL, latitude, CONTOUR_TILE),
    ...extent,
  };
}

function addPictureSource(sources: Record<string, SourceSpecification>, inputs: StyleInputs): void {
  const { picture, pictureTiles, protocol } = inputs;
  if (!picture || !pictureTiles) return;
  const pixel = Math.min(picture.pixel.width, picture.pixel.height);
  sources.picture = {
    type: 'raster',
    tiles: [protocol.pictureUrl(pictureTiles.key, TILE * inputs.pixelRatio)],
    tileSize: TILE,
    maxzoom: zoomOf(pixel, picture.outline[0]?.lat ?? 0, TILE),
    ...boundsOf(picture.outline),
  };
}

/** The first zoom whose pixels are no larger on the ground than `pixel`. */
function zoomOf(pixel: Metres, latitude: number, tile: number): number {
  const zoom = Math.ceil(Math.log2((EQUATOR * Math.cos(latitude * DEGREE)) / tile / pixel));
  return Math.min(DEEPEST_ZOOM, Math.max(0, zoom));
}

export function boundsOf(outline: readonly Position[]): { bounds?: [number, number, number, number] } {
  if (outline.length === 0) return {};
  const lons = outline.map(({ lon }) => lon);
  const lats = outline.map(({ lat }) => lat);
  return { bounds: [Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats)] };
}
