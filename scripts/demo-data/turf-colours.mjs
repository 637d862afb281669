import { FIELDS } from './farm.mjs';
import { layeredNoise, noise } from './noise.mjs';
import { SEED } from './random.mjs';
import { clamp, mix, ramp } from './shaping.mjs';

const COLOURS = {
  lush: [88, 113, 55],
  grazed: [118, 129, 70],
  dry: [150, 143, 92],
  hay: [140, 148, 84],
  stubble: [171, 158, 108],
  hill: [120, 118, 70],
  hillDry: [150, 137, 92],
  rushes: [82, 94, 50],
  bracken: [88, 101, 44],
  heath: [98, 84, 62],
  rock: [146, 142, 133],
  soil: [128, 106, 80],
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
  const base = blend(COLOURS[field.grass], COLOURS.dry, clamp(0.25 + 0.35 * mottle, 0, 0.6));
  if (field.cut === undefined) return base;
  const across = Math.cos(field.cut) * x + Math.sin(field.cut) * y + 1.5 * noise(x / 70, y / 70, SEED + 210);
  return blend(base, COLOURS.lush, 0.1 + 0.16 * ramp(-0.3, 0.3, Math.sin((across * 2 * Math.PI) / 8.4)));
}

function hillColour(x, y, { mottle, slope, height }) {
  let colour = blend(COLOURS.hill, COLOURS.hillDry, clamp(0.4 + 0.5 * mottle, 0, 1));
  const bracken = layeredNoise(x, y, { wavelength: 85, octaves: 4, roughness: 0.55, seed: SEED + 220 });
  colour = blend(colour, COLOURS.bracken, 0.75 * ramp(0.15, 0.5, bracken) * ramp(236, 215, height));
  const heath = layeredNoise(x, y, { wavelength: 60, octaves: 4, roughness: 0.6, seed: SEED + 230 });
  colour = blend(colour, COLOURS.heath, 0.75 * ramp(0, 0.5, heath) * ramp(205, 232, height));
  const rock = layeredNoise(x, y, { wavelength: 16, octaves: 4, roughness: 0.65, seed: SEED + 240 });
  return blend(colour, COLOURS.rock, 0.85 * ramp(0.42, 0.62, slope + 0.22 * rock));
}

/**
 * Colour of the open ground: the field's grass or the hill's, greener where water gathers, browner where it stands proud.
 *
 * @param {number} x
 * @param {number} y
 * @param {{ height: number, slope: number, wetness: number, standing: number, field: (typeof FIELDS)[number] | undefined }} place
 */
export function turfColour(x, y, { height, slope, wetness, standing, field }) {
  const mottle =
    layeredNoise(x, y, { wavelength: 48, octaves: 5, roughness: 0.62, seed: SEED + 200 }) + 0.12 * standing;
  let colour = field ? fieldColour(field, x, y, mottle) : hillColour(x, y, { mottle, slope, height });
  const wet = ramp(3.4, 6.2, wetness - 0.5 * mottle) * ramp(0.6, 0.25, slope);
  colour = blend(colour, COLOURS.lush, 0.55 * wet);
  colour = blend(colour, COLOURS.rushes, 0.5 * ramp(5.2, 7.2, wetness - mottle));
  const scuff = noise(x / 7, y / 7, SEED + 250);
  return blend(colour, COLOURS.soil, 0.5 * ramp(0.72, 1.0, scuff) * ramp(0.1, 0.35, slope));
}
