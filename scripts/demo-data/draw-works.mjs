import { around, lay } from './canvas.mjs';
import { corridor } from './corridor.mjs';
import { fromSegment } from './curve.mjs';
import { castShadow } from './draw-plants.mjs';
import { FENCES, FIELDS, PATHS, ROOFS, YARD } from './farm.mjs';
import { GULLY, SPRING, STREAM } from './features.mjs';
import { TRACK } from './landmarks.mjs';
import { noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { ramp } from './shaping.mjs';

const GRAVEL = [176, 162, 134];
const WORN = [158, 142, 104];
const TURF = [112, 118, 66];
const WATER = [60, 70, 64];
const MOSS = [92, 106, 56];
const GLINT = [118, 128, 128];
const FENCE = [86, 80, 62];

/** Two wheel tracks with grass between, fading into the verge. */
export function drawTrack(picture) {
  const seen = corridor(TRACK.curve, 3, picture);
  for (let cell = 0; cell < seen.distance.length; cell++) {
    const away = seen.distance[cell];
    if (away > 3) continue;
    const patch = 0.75 + 0.25 * noise(seen.station[cell] / 11, away, SEED + 400);
    lay(picture, cell, GRAVEL, 0.92 * patch * ramp(2.1, 1.4, away + 0.3 * patch));
    lay(picture, cell, TURF, 0.6 * patch * ramp(0.5, 0.25, away));
  }
}

export function drawPaths(picture) {
  for (const path of PATHS) {
    const seen = corridor(path, 1.5, picture);
    for (let cell = 0; cell < seen.distance.length; cell++) {
      if (seen.distance[cell] > 1.5) continue;
      const worn = 0.5 + 0.5 * noise(seen.station[cell] / 14, 0, SEED + 410);
      lay(picture, cell, WORN, 0.65 * worn * ramp(1.1, 0.2, seen.distance[cell]));
    }
  }
}

function drawStream(picture) {
  const seen = corridor(STREAM.curve, 3.4, picture);
  for (let cell = 0; cell < seen.distance.length; cell++) {
    const away = seen.distance[cell];
    if (away > 3.4) continue;
    const riffle = noise(seen.station[cell] / 5, away * 1.4, SEED + 420);
    const width = 1.25 + 0.45 * noise(seen.station[cell] / 23, 0, SEED + 421);
    lay(picture, cell, WORN, 0.5 * ramp(width + 1.2, width + 0.2, away));
    lay(picture, cell, riffle > 0.45 ? GLINT : WATER, 0.92 * ramp(width + 0.4, width - 0.3, away));
  }
}

function drawRill(picture) {
  const seen = corridor(GULLY.curve, 2.8, picture);
  for (let cell = 0; cell < seen.distance.length; cell++) {
    const away = seen.distance[cell];
    if (away > 2.8 || seen.station[cell] > SPRING.station) continue;
    const ragged = noise(seen.station[cell] / 5, away, SEED + 422);
    lay(picture, cell, MOSS, (0.5 + 0.3 * ragged) * ramp(2.8, 1, away + 0.8 * ragged));
    lay(picture, cell, WATER, 0.9 * ramp(0.9, 0.45, away));
  }
}

/** The stream with riffles, the spring's pool and the rill below it. */
export function drawWater(picture) {
  drawStream(picture);
  drawRill(picture);
  around(picture, { x: SPRING.x, y: SPRING.y, reach: 4 }, (cell, dx, dy) => {
    lay(picture, cell, WATER, 0.9 * ramp(1.9, 1.3, Math.hypot(dx, 1.3 * dy)));
  });
}

function drawLine(picture, [x0, y0], [x1, y1]) {
  const curve = { x: [x0, x1], y: [y0, y1], station: [0, 0] };
  const reach = Math.hypot(x1 - x0, y1 - y0) / 2 + 2;
  around(picture, { x: (x0 + x1) / 2, y: (y0 + y1) / 2, reach }, (cell, dx, dy) => {
    const { distance } = fromSegment(curve, 0, (x0 + x1) / 2 + dx, (y0 + y1) / 2 + dy);
    lay(picture, cell, WORN, 0.22 * ramp(1.6, 0.6, distance));
    lay(picture, cell, FENCE, 0.6 * ramp(0.5, 0.15, distance));
  });
}

export function drawFences(picture) {
  for (const fence of [...FIELDS.map(({ corners }) => [...corners, corners[0]]), ...FENCES]) {
    for (let k = 0; k < fence.length - 1; k++) drawLine(picture, fence[k], fence[k + 1]);
  }
}

export function drawYard(picture) {
  around(picture, { ...YARD, reach: YARD.radius * 1.3 }, (cell, dx, dy) => {
    const ragged = Math.hypot(dx, 1.35 * dy) * (1 + 0.2 * noise((YARD.x + dx) / 9, (YARD.y + dy) / 9, SEED + 430));
    lay(picture, cell, GRAVEL, 0.8 * ramp(YARD.radius, YARD.radius - 7, ragged));
  });
}

/** Pitched roofs: one side in the sun, the other not, and a shadow on the ground. */
export function drawRoofs(picture) {
  for (const roof of ROOFS) {
    for (let k = -4; k <= 4; k++) {
      const shift = (k / 4) * (roof.along - roof.across);
      const foot = { x: roof.x + Math.cos(roof.turn) * shift, y: roof.y + Math.sin(roof.turn) * shift };
      castShadow(picture, { ...foot, radius: roof.across, height: roof.height });
    }
    around(picture, { ...roof, reach: roof.along + roof.across }, (cell, dx, dy) => {
      const u = Math.abs(Math.cos(roof.turn) * dx + Math.sin(roof.turn) * dy);
      const v = Math.cos(roof.turn) * dy - Math.sin(roof.turn) * dx;
      if (u > roof.along || Math.abs(v) > roof.across) return;
      const side = v > 0 ? 1.16 : 0.8;
      const sheet = 1 + 0.04 * Math.sin(u * 4.2);
      lay(
        picture,
        cell,
        roof.colour.map((c) => c * side * sheet),
        1,
      );
      picture.light[cell] = 1;
    });
  }
}
