import type { Metres } from '../../units/quantity.ts';

/** An open product of elevations that a file's name may name. */
export interface NamedProduct {
  readonly title: string;
  /** Its accuracy class in `data/height-accuracy.json`. */
  readonly class: string;
}

interface NameRule extends NamedProduct {
  readonly pattern: RegExp;
  /** Only cells of at least this size are taken for the product, m. */
  readonly cellFrom: Metres;
}

/** Marks of open products in file names as their publishers give them; all of them give heights in metres. */
const nameRules: readonly NameRule[] = [
  {
    title: 'the seamless 1/3 arc-second model of the United States',
    pattern: /usgs_(seamless_)?13_|ned13|_13_[ns]\d{2}[ew]\d{3}/i,
    class: 'seamless-10m',
    cellFrom: 4,
  },
  { title: 'FABDEM', pattern: /fabdem/i, class: 'global-30m-ground', cellFrom: 15 },
  {
    title: 'the TanDEM-X model',
    pattern: /tdx|tandem|tdm1?_+dem|edem_wgs84|wam[-_ ]?dem/i,
    class: 'radar-12m',
    cellFrom: 5,
  },
  {
    title: 'a stereo model of high mountains or of the Arctic',
    pattern: /hma[-_ ]?dem|\bhma_|setsm|arcticdem|arctic_?dem|\brema\b|rema_|earthdem/i,
    class: 'stereo-8m',
    cellFrom: 0,
  },
  {
    title: 'the Copernicus model',
    pattern: /glo-?30|copernicus|cop-?(dem|30)|dsm_cog_10/i,
    class: 'global-30m-steep',
    cellFrom: 15,
  },
  {
    title: 'a global model of 1 arc second',
    pattern: /srtm|aw3d|alos|alpsmlc|astgtm|aster|_1arc_|(?<![a-z\d])[ns]\d{2}_?[ew]\d{3}/i,
    class: 'radar-30m',
    cellFrom: 15,
  },
  {
    title: 'a surface from a drone’s pictures',
    pattern: /drone|uav|\buas\b|odm_|pix4d|metashape|photoscan|structure[-_ ]from[-_ ]motion/i,
    class: 'drone-surface',
    cellFrom: 0,
  },
];

/** The product that a file's name names, given the size of its cells; null where it names none. */
export function namedProduct(file: string, cell: Metres): NamedProduct | null {
  return nameRules.find((rule) => cell >= rule.cellFrom && rule.pattern.test(file)) ?? null;
}
