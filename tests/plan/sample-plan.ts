import type { Plan } from '../../src/plan/plan.ts';

const spring = { lon: -30.0012, lat: 40.0021 };
const stand = { lon: -30.0009, lat: 40.0018 };
const ram = { lon: -30.0008, lat: 40.0016 };
const hill = { lon: -29.9991, lat: 40.0032 };
const meadow = { lon: -29.998, lat: 40.0025 };

/** An invented plan in the open Atlantic that uses every part a plan can have. */
export const samplePlan: Plan = {
  name: 'Invented valley',
  units: 'metric',
  waterTemperature: 11.5,
  points: [
    { id: 'source-1', role: 'source', name: 'Spring', position: spring, note: '', waterLevel: -0.2, storage: 0.35 },
    {
      id: 'standpipe-1',
      role: 'standpipe',
      name: 'Standpipe',
      position: stand,
      note: '',
      inletHeight: 0.3,
      topHeight: 2.4,
      bore: 0.11,
    },
    { id: 'pump-1', role: 'pump', name: 'Ram', position: ram, note: 'In a pit.', wasteValveHeight: -0.4 },
    {
      id: 'tank-1',
      role: 'tank',
      name: 'Hill tank',
      position: hill,
      note: 'Line one.\nLine two.',
      inletHeight: 1.4,
      outletHeight: 0.1,
      volume: 2.5,
      standing: 'kept',
    },
    { id: 'trough-1', role: 'trough', name: 'Meadow', position: meadow, note: '', valveHeight: 0.55, volume: 0.6 },
  ],
  routes: [
    {
      id: 'supply-1',
      role: 'supply',
      name: 'Supply',
      from: 'source-1',
      to: 'standpipe-1',
      vertices: [spring, { lon: -30.001, lat: 40.002 }, stand],
      pipe: 'pipe-1',
      fittings: [],
      summits: 'vented',
      note: '',
    },
    {
      id: 'drive-1',
      role: 'drive',
      name: 'Drive',
      from: 'standpipe-1',
      to: 'pump-1',
      vertices: [stand, ram],
      pipe: 'pipe-2',
      fittings: [
        { fitting: 'entrance-square', count: 1 },
        { fitting: 'elbow-45', count: 2 },
      ],
      summits: 'closed',
      note: '',
    },
    {
      id: 'delivery-1',
      role: 'delivery',
      name: 'Delivery',
      from: 'pump-1',
      to: 'tank-1',
      vertices: [ram, { lon: -30, lat: 40.0024 }, hill],
      pipe: 'pipe-3',
      fittings: [],
      summits: 'closed',
      note: '',
    },
    {
      id: 'gravity-1',
      role: 'gravity',
      name: 'To the meadow',
      from: 'tank-1',
      to: 'trough-1',
      vertices: [hill, meadow],
      pipe: 'pipe-3',
      fittings: [],
      summits: 'closed',
      note: '',
    },
  ],
  pipes: [
    { id: 'pipe-1', kind: 'row', row: 'pvc-sch40-2in' },
    {
      id: 'pipe-2',
      kind: 'own',
      label: 'Old steel pipe from the barn',
      material: 'steel',
      bore: 0.0409,
      wall: 0.0037,
      roughness: 0.0005,
      rating: null,
    },
    { id: 'pipe-3', kind: 'row', row: 'pe100-sdr11-25' },
  ],
  pump: {
    kind: 'sheet',
    label: 'Pump with a typed-in sheet',
    driveBore: 0.038,
    intakeLeast: 20 / 60_000,
    intakeMost: 55 / 60_000,
    intakeSet: null,
    efficiency: { low: 0.45, likely: 0.55, high: 0.65 },
    efficiencyCurve: [
      { headOverFall: 4, efficiency: 0.6 },
      { headOverFall: 10, efficiency: 0.45 },
    ],
    leastDeliveryHead: 6,
    measured: { driveFlow: 40 / 60_000, delivery: 3.1 / 60_000, fall: 3.2, deliveryHead: 21 },
  },
  yieldReadings: [
    { kind: 'timed', volume: 0.01, volumePlusMinus: 0.0002, times: [9.8, 10.1, 9.9] },
    { kind: 'stated', flow: 62.5 / 60_000, plusMinus: 5 / 60_000 },
  ],
  dryShare: 0.6,
  leftInStream: null,
  herd: [
    { kind: 'row', row: 'beef-cow-calf-pair-alberta', count: 24 },
    { kind: 'own', label: 'Donkeys', needPerDay: 0.018, count: 3 },
  ],
  measurements: [
    { kind: 'height', point: 'pump-1', height: 104.32, plusMinus: 0.02 },
    { kind: 'difference', from: 'pump-1', to: 'source-1', rise: 3.41, plusMinus: 0.03 },
  ],
  year: Array.from({ length: 12 }, (_, month) => ({
    season: month > 3 && month < 10 ? 'summer' : 'winter',
    airTemperature: month === 6 ? 27.5 : null,
    sourceShare: month === 8 ? 0.6 : null,
  })),
  materials: {
    currency: 'crowns',
    allowance: 0.05,
    prices: [
      { item: 'pe100-sdr11-32', unit: 'metre', price: 1.85, pack: 100 },
      { item: 'elbow-90-threaded', unit: 'piece', price: 3.2, pack: null },
    ],
  },
  mapTiles: { address: 'https://tiles.invalid/{z}/{x}/{y}.png', attribution: 'Invented survey' },
  confidence: 0.9,
  terrain: {
    files: ['dem.tif'],
    accuracy: 'lidar-1m-open',
    constants: { nugget: 0.05, near: 0.08, nearRange: 120, far: 0.1, farRange: 2500, placement: 1.5 },
  },
};
