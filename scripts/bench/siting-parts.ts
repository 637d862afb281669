/** What the benchmark of proposed routes takes from the program, bundled in one piece. */
export { proposeDelivery } from '../../src/siting/propose-delivery.ts';
export { proposeFalling } from '../../src/siting/propose-falling.ts';
export { USUAL_ROUTE_SETTINGS } from '../../src/siting/route-settings.ts';
