import proj4 from 'proj4';
import { gridCoordinates, SITE } from './site.mjs';

const INVENTED = 'Invented for trying out the planner; no such place exists.';

/** Hundredths of a millionth of a degree: about a millimetre. */
const DIGITS = 8;

const grid = proj4(SITE.projString);

/** A place of the site as longitude and latitude. */
function position([x, y]) {
  const { easting, northing } = gridCoordinates(x, y);
  const [lon, lat] = grid.inverse([easting, northing]);
  return { lon: Number(lon.toFixed(DIGITS)), lat: Number(lat.toFixed(DIGITS)) };
}

const PLACES = {
  spring: [431.5, 486],
  standpipe: [500, 432.5],
  pump: [517, 406],
  'tank-shoulder': [550, 500],
  'tank-behind-knoll': [790, 566],
  'tank-spur': [508, 552],
  'trough-gap': [640, 430],
  'trough-meadow': [412, 410],
};

const tank = (id, name, note) => ({
  id,
  role: 'tank',
  name,
  note,
  position: position(PLACES[id]),
  inletHeight: 1.6,
  outletHeight: 0.15,
  volume: 5,
  standing: 'candidate',
});

const trough = (id, name, note, watered = {}) => ({
  id,
  role: 'trough',
  name,
  note,
  position: position(PLACES[id]),
  valveHeight: 0.6,
  herdShare: null,
  valveFlow: null,
  volume: 0.9,
  ...watered,
});

const points = [
  {
    id: 'spring',
    role: 'source',
    name: 'Alder spring',
    note: `${INVENTED} A small box holds the water half a metre deep.`,
    position: position(PLACES.spring),
    waterLevel: 0.5,
    storage: 0.6,
  },
  {
    id: 'standpipe',
    role: 'standpipe',
    name: 'Standpipe',
    note: '',
    position: position(PLACES.standpipe),
    inletHeight: 0.35,
    topHeight: 2.4,
    bore: 0.1023,
  },
  {
    id: 'pump',
    role: 'pump',
    name: 'Pump on the bench',
    note: 'Waste water runs off to the stream, three metres lower.',
    position: position(PLACES.pump),
    wasteValveHeight: 0.3,
  },
  tank('tank-shoulder', 'Shoulder tank', 'A level place above the bench, near the track.'),
  tank('tank-behind-knoll', 'Tank behind the knoll', 'Good grazing; the straight way there goes over the knoll.'),
  tank('tank-spur', 'Spur tank', 'A step high on the spur; it would command the whole hill.'),
  trough('trough-gap', 'Gap trough', 'In the gap below the knoll.'),
  trough('trough-meadow', 'Meadow trough', 'Lower than the spring; throttled, so that the pump keeps its water.', {
    herdShare: 0.5,
    valveFlow: 2 / 60000,
  }),
];

/** A route from point to point; `by` holds the bends between. */
function route(id, role, name, { from, to, by = [], pipe, fittings = [], summits = 'closed', trenchDepth, note = '' }) {
  const vertices = [PLACES[from], ...by, PLACES[to]].map(position);
  const trench = trenchDepth === undefined ? {} : { trenchDepth };
  return { id, role, name, from, to, vertices, pipe, fittings, summits, ...trench, note };
}

const bends = (count) => [{ fitting: 'elbow-45', count }];

const routes = [
  route('supply', 'supply', 'Supply line', {
    from: 'spring',
    to: 'standpipe',
    by: [
      [434.5, 481],
      [439, 471],
      [445.5, 456],
      [452, 445.5],
      [461, 437.5],
      [473, 433.5],
      [487, 432.5],
    ],
    pipe: 'pe-50',
    fittings: bends(2),
  }),
  route('drive', 'drive', 'Drive pipe', {
    from: 'standpipe',
    to: 'pump',
    pipe: 'steel-32',
    trenchDepth: 0.7,
  }),
  route('delivery-shoulder', 'delivery', 'Delivery to the shoulder', {
    from: 'pump',
    to: 'tank-shoulder',
    by: [
      [524, 428],
      [530, 452],
      [541, 478],
    ],
    pipe: 'pe-25',
    fittings: bends(1),
  }),
  route('delivery-behind-knoll', 'delivery', 'Delivery over the knoll', {
    from: 'pump',
    to: 'tank-behind-knoll',
    by: [
      [598, 453],
      [690, 505],
    ],
    pipe: 'pe-25-strong',
    summits: 'vented',
    note: 'Drawn straight over the knoll, with a vent on top. Try bending it round the south side.',
  }),
  route('delivery-spur', 'delivery', 'Delivery up the spur', {
    from: 'pump',
    to: 'tank-spur',
    by: [
      [519, 430],
      [519, 468],
      [512, 512],
    ],
    pipe: 'pe-25',
    fittings: bends(1),
  }),
  route('gravity-gap', 'gravity', 'Line to the gap trough', {
    from: 'tank-shoulder',
    to: 'trough-gap',
    by: [
      [568, 481],
      [588, 455],
      [612, 437],
    ],
    pipe: 'pe-25',
    fittings: bends(2),
  }),
  route('gravity-meadow', 'gravity', 'Line to the meadow trough', {
    from: 'spring',
    to: 'trough-meadow',
    by: [
      [431, 470],
      [428, 448],
      [421, 428],
    ],
    pipe: 'pe-32',
    fittings: bends(2),
  }),
];

/** The demo's plan, in SI units, as the planner holds it. */
export function demoPlan() {
  return {
    name: 'Demo valley (invented, in the open Atlantic)',
    units: 'metric',
    waterTemperature: 10,
    points,
    routes,
    areas: [],
    pipes: [
      { id: 'pe-50', kind: 'row', row: 'pe100-sdr17-50' },
      { id: 'steel-32', kind: 'row', row: 'steel-sch40-1.25in' },
      { id: 'pe-25', kind: 'row', row: 'pe100-sdr11-25' },
      { id: 'pe-25-strong', kind: 'row', row: 'pe100-sdr7.4-25' },
      { id: 'pe-32', kind: 'row', row: 'pe100-sdr11-32' },
    ],
    pump: {
      kind: 'sheet',
      label: 'Ram for a 1-1/4 in drive pipe, figures invented',
      count: 1,
      driveBore: 0.03505,
      intakeLeast: 7 / 60000,
      intakeMost: 22 / 60000,
      intakeSet: null,
      efficiency: { low: 0.525, likely: 0.55, high: 0.575 },
      efficiencyCurve: [],
      leastDeliveryHead: 7,
      measured: null,
    },
    yieldReadings: [{ kind: 'timed', volume: 0.01, volumePlusMinus: 0.0004, times: [36.5, 38.4, 35.2, 39.1, 37] }],
    dryShare: 0.8,
    dryShareDoubt: 0.05,
    leftInStream: 0.15,
    herd: [{ kind: 'row', row: 'beef-cow-calf-pair-aafc', count: 19 }],
    measurements: [],
    year: [],
    materials: { currency: '', allowance: 0, prices: [] },
    mapTiles: null,
    confidence: 0.9,
    terrain: { files: ['dem.tif'], accuracy: 'lidar-1m-scrub', constants: null },
  };
}
