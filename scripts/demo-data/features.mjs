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

/** The way between the knoll and the hill: up a dry gap from the bench, over a saddle, down into the hollow behind. */
const GAP = {
  curve: smoothCurve([
    [606, 380],
    [622, 440],
    [606, 496],
    [632, 548],
    [680, 572],
    [735, 566],
    [796, 560],
  ]),
  floor: [
    [0, 160],
    [60, 168],
    [120, 178],
    [190, 192],
    [240, 195.5],
    [290, 192],
    [360, 187],
  ],
  flank: 0.34,
  close: 0.004,
};

/** Dry hollows: they carry water after rain only. */
export const HOLLOWS = [
  GAP,
  {
    curve: smoothCurve([
      [905, 248],
      [888, 318],
      [858, 380],
      [842, 450],
      [806, 520],
      [776, 580],
      [742, 640],
      [728, 720],
      [690, 800],
      [668, 930],
    ]),
    floor: [
      [0, 150.4],
      [90, 163],
      [200, 175],
      [300, 184.5],
      [370, 190],
      [440, 197.5],
      [520, 208],
      [640, 219],
      [760, 228],
    ],
    flank: 0.3,
    close: 0.002,
  },
  {
    curve: smoothCurve([
      [262, 420],
      [232, 330],
      [250, 262],
      [216, 190],
      [204, 100],
      [170, -60],
    ]),
    floor: [
      [0, 165.6],
      [90, 170],
      [170, 177],
      [260, 187],
      [340, 196],
      [520, 208],
    ],
    flank: 0.24,
    close: 0.002,
  },
  {
    curve: smoothCurve([
      [118, 462],
      [128, 540],
      [96, 620],
      [104, 700],
      [60, 800],
      [50, 940],
    ]),
    floor: [
      [0, 169.4],
      [80, 177],
      [160, 191],
      [240, 204],
      [340, 216],
      [500, 229],
    ],
    flank: 0.34,
    close: 0.002,
  },
  {
    curve: smoothCurve([
      [664, 314],
      [672, 240],
      [640, 170],
      [662, 90],
      [640, -60],
    ]),
    floor: [
      [0, 156.3],
      [80, 163],
      [150, 173],
      [240, 185],
      [400, 198],
    ],
    flank: 0.22,
    close: 0.002,
  },
];

/** The knoll east of the pump: a straight line to the hollow behind it goes over its top. */
export const KNOLL = { x: 692, y: 488, level: 213, along: 95, across: 66, turn: 0.45 };

/** Level places worn or built into the slope, as ellipses that the ground is drawn towards. */
export const LEVELS = [
  {
    what: 'bench by the stream',
    x: 528,
    y: 393,
    level: 162.7,
    tilt: [-0.015, 0.03],
    along: 44,
    across: 15,
    turn: -0.2,
  },
  {
    what: 'shoulder above the bench',
    x: 552,
    y: 518,
    level: 185,
    tilt: [0.02, 0.1],
    along: 30,
    across: 17,
    turn: -0.1,
  },
  { what: 'step high on the spur', x: 508, y: 552, level: 192.4, tilt: [0, 0.1], along: 34, across: 17, turn: 0.05 },
  { what: 'floor behind the knoll', x: 790, y: 566, level: 187, tilt: [0.04, 0.1], along: 30, across: 17, turn: 0.6 },
  { what: 'farm yard', x: 372, y: 168, level: 187.6, tilt: [-0.05, -0.06], along: 36, across: 24, turn: 0.15 },
];

/** The farm track: in from the south, past the yard, through the stream at a ford, and up the west flank of the knoll. */
export const TRACK = {
  curve: smoothCurve([
    [300, -40],
    [312, 60],
    [352, 130],
    [392, 182],
    [430, 236],
    [492, 282],
    [560, 318],
    [590, 348],
    [600, 372],
    [586, 412],
    [588, 452],
    [604, 490],
    [612, 532],
    [640, 566],
    [700, 578],
    [760, 590],
    [830, 640],
    [900, 700],
    [950, 790],
    [960, 960],
  ]),
  halfWidth: 1.7,
};
