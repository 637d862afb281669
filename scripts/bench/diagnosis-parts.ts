export { diagnose, drawsFor } from '../../src/diagnosis/diagnose.ts';
export { noReadings } from '../../src/diagnosis/model/readings.ts';
export { documentCases, shareTables } from '../../tests/diagnosis/share-document.ts';
export { sharesOf, UNSEPARABLE } from '../../tests/diagnosis/share-table.ts';
export { R50 } from '../../tests/diagnosis/simulated-rams.ts';
