import type { RamSystem } from '../../src/ram/cycle/ram-system.ts';

/** The ram of the worked example: 25 mm drive pipe of 8 m, steel. */
export const exampleRam: RamSystem = {
  bore: 0.025,
  length: 8,
  waveSpeed: 1400,
  darcyFactor: 0.03,
  entranceLoss: 0.5,
  bendLoss: 1,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  checkLag: 0,
};

export const exampleHeads = { fall: 2.4, deliveryHead: 15 };

/** The same without any loss. */
export const losslessRam: RamSystem = {
  ...exampleRam,
  darcyFactor: 0,
  entranceLoss: 0,
  bendLoss: 0,
  wasteValveLoss: 0,
  checkValveLoss: 0,
};

/** Litres a minute in one m³/s. */
export const litresAMinute = 60_000;
