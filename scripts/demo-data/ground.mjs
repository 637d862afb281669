import { corridor } from './corridor.mjs';
import { GULLY, SPRING, STREAM } from './features.mjs';
import { filled, gridOver, smoothAt } from './grid.mjs';
import { landform } from './landform.mjs';
import { LEVELS } from './landmarks.mjs';
import { layeredNoise, noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { along, mix, ramp } from './shaping.mjs';
import { SITE } from './site.mjs';
import { graded } from './track.mjs';
import { weathered } from './weather.mjs';

/** The design is made and weathered coarsely, a margin wider than the site, so that no edge shows. */
const MARGIN = 60;
const COARSE = gridOver({
  west: -MARGIN,
  south: -MARGIN,
  width: SITE.width + 2 * MARGIN,
  height: SITE.height + 2 * MARGIN,
  cell: 4,
});

/** The grid of the elevation model, 1 m cells. */
export const FINE = gridOver({ west: 0, south: 0, width: SITE.width, height: SITE.height, cell: 1 });

/** Bed below the level of the banks' foot, and the half width of the channel, m. */
const CHANNEL = { depth: 0.55, half: 1.3, banks: 3.2 };
const RILL = { depth: 0.3, half: 0.35, banks: 1.6 };

function outlets(grid) {
  const near = corridor(STREAM.curve, grid.cell, grid);
  return Uint8Array.from(near.distance, (distance, cell) => {
    const column = cell % grid.columns;
    const row = (cell - column) / grid.columns;
    const edge = column === 0 || row === 0 || column === grid.columns - 1 || row === grid.rows - 1;
    return edge || distance < grid.cell ? 1 : 0;
  });
}

/** Tussocks and stones: rougher on steep and rocky ground than in the meadows. */
function turf(x, y) {
  const coarse = 0.13 + 0.08 * noise(x / 80, y / 80, SEED + 80);
  return coarse * layeredNoise(x, y, { wavelength: 13, octaves: 4, roughness: 0.6, seed: SEED + 90 });
}

function levelled(height, x, y) {
  let result = height;
  for (const place of LEVELS) {
    const [dx, dy] = [x - place.x, y - place.y];
    const u = (Math.cos(place.turn) * dx + Math.sin(place.turn) * dy) / place.along;
    const v = (Math.cos(place.turn) * dy - Math.sin(place.turn) * dx) / place.across;
    const ragged = Math.hypot(u, v) * (1 + 0.12 * noise(x / 18, y / 18, SEED + 110));
    result = mix(result, place.level + place.tilt[0] * dx + place.tilt[1] * dy, ramp(1.35, 0.45, ragged));
  }
  return result;
}

/** Cuts a channel with a bed that only ever falls. */
function channelled(heights, seen, { floor, shape, until }) {
  for (let cell = 0; cell < heights.length; cell++) {
    const distance = seen.distance[cell];
    if (distance > shape.banks || seen.station[cell] > until) continue;
    const bed = along(floor, seen.station[cell]) - shape.depth;
    heights[cell] = mix(bed, heights[cell], ramp(shape.half, shape.banks, distance));
  }
}

/**
 * The ground of the valley, 1 m cells from the north-west corner, in metres.
 */
export function valleyGround() {
  const coarse = weathered(COARSE, filled(COARSE, landform), outlets(COARSE));
  const heights = filled(FINE, (x, y) => levelled(smoothAt(COARSE, coarse, x, y), x, y));
  graded(FINE, heights);
  for (let cell = 0; cell < heights.length; cell++) {
    heights[cell] += turf((cell % FINE.columns) + 0.5, FINE.north - Math.floor(cell / FINE.columns) - 0.5);
  }
  const stream = corridor(STREAM.curve, CHANNEL.banks, FINE);
  channelled(heights, stream, { floor: STREAM.floor, shape: CHANNEL, until: Infinity });
  const rill = corridor(GULLY.curve, RILL.banks, FINE);
  channelled(heights, rill, { floor: GULLY.floor, shape: RILL, until: SPRING.station });
  return heights;
}
