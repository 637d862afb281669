import { smoothCurve } from './curve.mjs';

/** Fenced fields: their corners, the kind of grass, and the direction in which hay was cut, rad. */
export const FIELDS = [
  {
    grass: 'grazed',
    corners: [
      [8, 452],
      [70, 436],
      [205, 402],
      [248, 322],
      [150, 268],
      [6, 300],
    ],
  },
  {
    grass: 'lush',
    corners: [
      [276, 402],
      [330, 372],
      [388, 366],
      [452, 344],
      [486, 300],
      [424, 242],
      [352, 214],
      [284, 262],
      [250, 318],
    ],
  },
  {
    grass: 'hay',
    cut: 0.62,
    corners: [
      [500, 292],
      [566, 312],
      [640, 302],
      [668, 252],
      [636, 172],
      [520, 152],
      [440, 196],
      [432, 232],
    ],
  },
  {
    grass: 'grazed',
    corners: [
      [690, 296],
      [772, 264],
      [845, 262],
      [905, 230],
      [992, 212],
      [992, 96],
      [846, 82],
      [702, 112],
      [696, 236],
    ],
  },
  {
    grass: 'dry',
    corners: [
      [408, 132],
      [516, 142],
      [634, 164],
      [664, 92],
      [646, 6],
      [396, 6],
    ],
  },
  {
    grass: 'stubble',
    cut: 1.32,
    corners: [
      [694, 102],
      [846, 74],
      [992, 88],
      [992, 6],
      [664, 6],
    ],
  },
  {
    grass: 'lush',
    corners: [
      [232, 168],
      [300, 176],
      [344, 132],
      [300, 60],
      [292, 6],
      [186, 6],
      [238, 100],
    ],
  },
  {
    grass: 'grazed',
    corners: [
      [6, 286],
      [150, 254],
      [206, 204],
      [222, 100],
      [174, 6],
      [6, 6],
    ],
  },
];

/** Fences that are not the edge of a field: the hill fence along the foot of the north side, with a gate at the track. */
export const FENCES = [
  [
    [0, 556],
    [96, 534],
    [168, 520],
    [260, 478],
    [352, 462],
    [404, 458],
    [420, 452],
  ],
  [
    [446, 452],
    [500, 462],
    [560, 452],
    [584, 446],
  ],
  [
    [594, 446],
    [640, 424],
    [720, 400],
    [800, 372],
    [850, 352],
  ],
  [
    [876, 350],
    [930, 330],
    [1000, 300],
  ],
];

/** Hedges along some field edges. */
export const HEDGES = [
  [
    [284, 262],
    [352, 214],
    [424, 242],
    [486, 300],
  ],
  [
    [440, 196],
    [520, 152],
    [636, 172],
    [668, 252],
  ],
  [
    [846, 82],
    [702, 112],
    [696, 236],
  ],
];

/** Paths worn by cattle. */
export const PATHS = [
  smoothCurve([
    [448, 300],
    [470, 330],
    [474, 352],
    [470, 364],
  ]),
  smoothCurve([
    [588, 440],
    [560, 436],
    [500, 450],
    [450, 470],
    [438, 480],
  ]),
  smoothCurve([
    [640, 566],
    [610, 620],
    [600, 700],
    [560, 760],
    [480, 790],
    [400, 800],
  ]),
  smoothCurve([
    [760, 590],
    [800, 560],
    [830, 500],
    [880, 420],
    [960, 380],
  ]),
];

/** Roofs: middle, half length and half width, turn, and the height that throws the shadow, m. */
export const ROOFS = [
  { x: 352, y: 176, along: 13, across: 6, turn: 0.35, height: 6, colour: [122, 128, 132] },
  { x: 389, y: 143, along: 8, across: 4.5, turn: 1.92, height: 4.5, colour: [138, 88, 72] },
  { x: 396, y: 160, along: 5, across: 3, turn: 0.3, height: 3, colour: [150, 152, 150] },
];

export const YARD = { x: 376, y: 167, radius: 27 };
