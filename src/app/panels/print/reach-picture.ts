import type { PictureBeneath } from '../../../report/plan-map/plan-map-figure.ts';
import { shownReach } from '../../state/place-store.ts';
import { terrain } from '../../state/store.ts';

const TILE = 256;
/** The picture is about so wide, pixels: enough for a hand's breadth of paper. */
const WIDTH = 1024;
const CLOSEST = 20;

/** Places on the square of Web Mercator (EPSG:3857), in tiles of a zoom. */
function mercator(lon: number, lat: number, z: number): { x: number; y: number } {
  const side = 2 ** z;
  const up = Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI;
  return { x: ((lon + 180) / 360) * side, y: ((1 - up) / 2) * side };
}

/** The reach map that is shown on the map, as one picture of an area for paper; null where none was made. */
export async function reachPicture(bounds: PictureBeneath['bounds']): Promise<PictureBeneath | null> {
  const opened = terrain.value;
  if (shownReach.value === null || opened === null) return null;
  const z = Math.min(CLOSEST, Math.floor(Math.log2((360 / (bounds.east - bounds.west)) * (WIDTH / TILE))));
  const [from, to] = [mercator(bounds.west, bounds.north, z), mercator(bounds.east, bounds.south, z)];
  const canvas = document.createElement('canvas');
  canvas.width = Math.ceil((to.x - from.x) * TILE);
  canvas.height = Math.ceil((to.y - from.y) * TILE);
  const paint = canvas.getContext('2d');
  if (paint === null) return null;
  const { signal } = new AbortController();
  for (let x = Math.floor(from.x); x < to.x; x++) {
    for (let y = Math.floor(from.y); y < to.y; y++) {
      const tile = await opened.reachTile({ tile: { z, x, y }, colours: 'light', size: TILE }, signal);
      paint.drawImage(tile, (x - from.x) * TILE, (y - from.y) * TILE);
    }
  }
  return { href: canvas.toDataURL('image/png'), bounds };
}
