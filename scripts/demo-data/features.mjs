import { smoothCurve } from './curve.mjs';

/** The stream, from where it enters in the west to where it leaves in the east, and the level of its bed by station. */
export const STREAM = {
  curve: smoothCurve([
    [-80, 505],
    [0, 488],
    [70, 462],
    [140, 458],
    [205, 428],
    [268, 424],
    [322, 392],
    [385, 390],
    [440, 368],
    [496, 372],
    [548, 350],
    [602, 352],
    [655, 322],
    [716, 318],
    [770, 288],
    [838, 286],
    [900, 252],
    [985, 238],
    [1080, 205],
  ]),
  floor: [
    [0, 174],
    [82, 172],
    [205, 169.3],
    [357, 165.8],
    [425, 164.1],
    [570, 161],
    [641, 159.3],
    [777, 156.4],
    [1045, 150.2],
    [1226, 145.5],
  ],
  flank: 0.12,
  /** How fast the cut closes sideways, 1/m: the stream shapes its floor, not the hills. */
  close: 0.006,
  steady: true,
};

/** The valley's axis: northing by easting, the cosine of its turn against east, and the level of its floor by easting. */
export const AXIS = {
  line: [
    [-400, 530],
    [0, 487],
    [150, 452],
    [300, 408],
    [440, 375],
    [560, 352],
    [680, 326],
    [800, 293],
    [1000, 232],
    [1400, 110],
  ],
  cosine: 0.965,
  level: [
    [-300, 179],
    [0, 172],
    [118, 169.3],
    [262, 165.8],
    [322, 164.1],
    [462, 161],
    [528, 159.3],
    [655, 156.4],
    [905, 150.2],
    [1000, 147.7],
    [1300, 139.9],
  ],
};

/** The gully with the spring, from its mouth upwards, and the level of its floor by station. */
export const GULLY = {
  curve: smoothCurve([
    [462, 370],
    [456, 402],
    [437, 442],
    [432, 486],
    [414, 536],
    [404, 590],
    [372, 650],
    [356, 716],
    [318, 780],
    [296, 860],
    [270, 960],
  ]),
  floor: [
    [0, 160.9],
    [40, 163],
    [122, 168.1],
    [128, 168.9],
    [180, 176.5],
    [260, 189],
    [360, 202],
    [480, 214],
    [640, 226],
  ],
  flank: 0.52,
  close: 0.002,
  steady: true,
};

/** Where the spring comes out, and its station in the gully: below it there is a rill. */
export const SPRING = { x: 431.5, y: 486, station: 122 };
