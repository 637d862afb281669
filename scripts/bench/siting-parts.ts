/** What the benchmark of proposed routes takes from the program, bundled in one piece. */
export { proposeDelivery } from '../../src/siting/lines/propose-delivery.ts';
export { proposeFalling } from '../../src/siting/lines/propose-falling.ts';
export { USUAL_ROUTE_SETTINGS } from '../../src/siting/lines/route-settings.ts';
