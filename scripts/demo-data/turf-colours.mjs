import { FIELDS } from './farm.mjs';
import { layeredNoise, noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { clamp, mix, ramp } from './shaping.mjs';

const COLOURS = {
  lush: [86, 110, 56],
  grazed: [112, 125, 70],
  dry: [146, 140, 92],
  hay: [136, 145, 84],
  stubble: [168, 156, 108],
  hill: [101, 110, 66],
  hillDry: [140, 132, 92],
  rushes: [80, 90, 50],
  bracken: [90, 100, 50],
  heath: [100, 88, 66],
  rock: [141, 137, 128],
  soil: [128, 108, 82],
};

const blend = (a, b, share) => [mix(a[0], b[0], share), mix(a[1], b[1], share), mix(a[2], b[2], share)];

/** Whether a place lies within a field's corners, by counting crossings. */
function inside(corners, x, y) {
  let within = false;
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [xi, yi] = corners[i];
    const [xj, yj] = corners[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) within = !within;
  }
  return within;
}

/** The field at a place, or undefined on the open hill. */
export function fieldAt(x, y) {
  return FIELDS.find((field) => inside(field.corners, x, y));
}

function fieldColour(field, x, y, mottle) {
  const base = blend(COLOURS[field.grass], COLOURS.dry, clamp(0.22 + 0.42 * mottle, 0, 0.65));
  if (field.cut === undefined) return base;
  const across = Math.cos(field.cut) * x + Math.sin(field.cut) * y + 1.5 * noise(x / 70, y / 70, SEED + 210);
  return blend(base, COLOURS.lush, 0.1 + 0.16 * ramp(-0.3, 0.3, Math.sin((across * 2 * Math.PI) / 8.4)));
}

/** Plants that grow in patches: how much of the ground they cover, ragged at the edge and never quite closed. */
function patches(x, y, { wavelength, seed, from, to }) {
  const spread = layeredNoise(x, y, { wavelength, octaves: 5, roughness: 0.66, seed: SEED + seed });
  const gaps = noise(x / 4.5, y / 4.5, SEED + seed + 7);
  return ramp(from, to, spread + 0.16 * gaps) * (0.78 + 0.22 * gaps);
}

function hillColour(x, y, { mottle, slope, height }) {
  let colour = blend(COLOURS.hill, COLOURS.hillDry, clamp(0.42 + 0.6 * mottle, 0, 1));
  const bracken = patches(x, y, { wavelength: 70, seed: 220, from: 0.05, to: 0.85 });
  colour = blend(colour, COLOURS.bracken, 0.85 * bracken * ramp(238, 212, height));
  const heath = patches(x, y, { wavelength: 75, seed: 230, from: 0.0, to: 0.6 });
  colour = blend(colour, COLOURS.heath, 0.8 * heath * ramp(203, 234, height));
  const rock = layeredNoise(x, y, { wavelength: 13, octaves: 4, roughness: 0.7, seed: SEED + 240 });
  const ledge = layeredNoise(x, y, { wavelength: 55, octaves: 2, roughness: 0.5, seed: SEED + 245 });
  return blend(colour, COLOURS.rock, 0.8 * ramp(0.62, 0.78, slope + 0.2 * rock + 0.12 * ledge));
}

/**
 * Colour of the open ground: the field's grass or the hill's, greener where water gathers, browner where it stands proud.
 *
 * @param {number} x
 * @param {number} y
 * @param {{ height: number, slope: number, wetness: number, standing: number, stream: number, field: (typeof FIELDS)[number] | undefined }} place
 */
export function turfColour(x, y, { height, slope, wetness, standing, stream, field }) {
  const mottle =
    layeredNoise(x, y, { wavelength: 48, octaves: 6, roughness: 0.72, seed: SEED + 200 }) + 0.12 * standing;
  let colour = field ? fieldColour(field, x, y, mottle) : hillColour(x, y, { mottle, slope, height });
  const wet = ramp(2.6, 5.8, wetness - 0.6 * mottle) * ramp(0.7, 0.3, slope);
  const meadow = ramp(48, 12, stream + 14 * mottle);
  colour = blend(colour, COLOURS.lush, Math.max(0.7 * wet, 0.5 * meadow));
  colour = blend(colour, COLOURS.rushes, 0.6 * ramp(4.8, 7, wetness - mottle));
  const scuff = noise(x / 7, y / 7, SEED + 250);
  return blend(colour, COLOURS.soil, 0.5 * ramp(0.72, 1.0, scuff) * ramp(0.1, 0.35, slope));
}
