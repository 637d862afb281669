import { HEDGES } from './farm.mjs';
import { noise } from './noise.mjs';
import { chanceAt, SEED } from './random.mjs';
import { ramp } from './shaping.mjs';
import { SITE } from './site.mjs';

/** Spacing of the lattice on which trees and bushes may stand, m. */
const TREE_SPACING = 5;
const BUSH_SPACING = 2.6;

/** Candidates on a jittered lattice; each stands if its chance is below the density there. */
function scattered(spacing, seed, density, make) {
  const plants = [];
  for (let j = 0; j < SITE.height / spacing; j++) {
    for (let i = 0; i < SITE.width / spacing; i++) {
      const x = (i + chanceAt(i, j, seed)) * spacing;
      const y = (j + chanceAt(i, j, seed + 1)) * spacing;
      if (chanceAt(i, j, seed + 2) < density(x, y)) plants.push({ x, y, ...make(chanceAt(i, j, seed + 3)) });
    }
  }
  return plants;
}

const tree = (chance) => ({ radius: 1.8 + 2.6 * chance, height: 3.5 + 6 * chance, tone: chance });
const bush = (chance) => ({ radius: 0.5 + 0.9 * chance, height: 0.8 + 1.2 * chance, tone: chance });

function treeDensity({ stream, gully, open }) {
  return (x, y) => {
    if (open(x, y)) return 0;
    const clump = 0.5 + 0.5 * noise(x / 34, y / 34, SEED + 310);
    const byStream = 0.75 * ramp(13, 5, stream(x, y)) * ramp(2.4, 4.5, stream(x, y)) * ramp(0.4, 0.75, clump);
    const inGully =
      0.85 * ramp(26, 8, gully(x, y)) * ramp(2, 4, gully(x, y)) * ramp(0.2, 0.6, clump) * ramp(498, 540, y);
    const copse = 0.8 * ramp(46, 34, Math.hypot(x - 742, (y - 178) * 1.2));
    const thorn = 0.012 * ramp(0.55, 0.8, clump) * ramp(380, 440, y);
    return Math.max(byStream, inGully, copse, thorn);
  };
}

function bushDensity({ stream, gully, open }) {
  return (x, y) => {
    if (open(x, y)) return 0;
    const clump = 0.5 + 0.5 * noise(x / 42, y / 42, SEED + 320) + 0.25 * noise(x / 11, y / 11, SEED + 321);
    const gorse = 0.55 * ramp(0.72, 0.95, clump) * ramp(430, 520, y);
    const scrub =
      0.7 * ramp(30, 8, gully(x, y)) * ramp(1.2, 2.2, gully(x, y)) * ramp(0.25, 0.6, clump) * ramp(470, 520, y);
    const bank = 0.3 * ramp(9, 4, stream(x, y)) * ramp(2, 3, stream(x, y)) * ramp(0.3, 0.6, clump);
    return Math.max(gorse, scrub, bank);
  };
}

function hedgePlants() {
  const plants = [];
  HEDGES.forEach((hedge, h) => {
    for (let k = 0; k < hedge.length - 1; k++) {
      const [x0, y0] = hedge[k];
      const [x1, y1] = hedge[k + 1];
      const count = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / 1.5);
      for (let i = 0; i < count; i++) {
        const chance = chanceAt(i, k + 40 * h, SEED + 330);
        const share = i / count;
        const size = chance > 0.955 ? tree(chance - 0.4) : { radius: 0.9 + 0.5 * chance, height: 1.8, tone: chance };
        if (chance > 0.06)
          plants.push({ x: x0 + share * (x1 - x0) + chance, y: y0 + share * (y1 - y0) - chance, ...size });
      }
    }
  });
  return plants;
}

/**
 * Every tree, bush and hedge plant of the valley, smallest first.
 *
 * @param {{ stream: (x: number, y: number) => number, gully: (x: number, y: number) => number,
 *   open: (x: number, y: number) => boolean }} near distances from the stream and the gully; `open` where nothing may grow
 */
export function plants(near) {
  const trees = scattered(TREE_SPACING, SEED + 340, treeDensity(near), tree);
  const bushes = scattered(BUSH_SPACING, SEED + 350, bushDensity(near), bush);
  return [...trees, ...bushes, ...hedgePlants()].sort((a, b) => a.height - b.height);
}
