import assert from 'node:assert/strict';
import { assessText, demoDem } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { dropFiles, fileOf } from './steps/files.mjs';
import { drawLine, mapAtRest, placePoint, viewOf, zoomIn } from './steps/map.mjs';
import { answerNumbers, assertAnswer } from './steps/numbers.mjs';
import { calm, openEmpty, savedPlan, showPanel } from './steps/planner.mjs';

/** Places in the invented valley of the demo: along its gully, over the bench, up the shoulder. */
const spring = [-39.99728, 38.00172];
const standpipe = [-39.9966, 38.0013];
const pump = [-39.99642, 38.0011];
const tank = [-39.9961, 38.0019];
const supplyBends = [
  [-39.99718, 38.00148],
  [-39.99696, 38.00136],
];
const driveBends = [[-39.99652, 38.0012]];
const deliveryBends = [
  [-39.9963, 38.0014],
  [-39.9962, 38.00165],
];

/** Gives the line that was drawn last, which is selected, a pipe of the handbook. */
async function choosePipe(page, series, size) {
  await showPanel(page, 'Selected');
  await page.getByLabel('Series').selectOption(series);
  await page.getByLabel('Size').selectOption(size);
}

async function fill(page, label, text) {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
}

/** A place on the map is known to half a pixel, and longitude degrees are shorter here than those of latitude. */
function assertNear(found, expected, { zoom }, about) {
  const pixel = 360 / (512 * 2 ** zoom);
  const off = Math.hypot(found[0] - expected[0], found[1] - expected[1]);
  assert.ok(off <= pixel, `${about}: found ${found}, expected ${expected} to ${pixel}`);
}

export const cases = {
  'a plan drawn by mouse on a dropped elevation file reads as the command line reckons it': {
    options: { ...calm, viewport: { width: 1440, height: 900 } },
    run: async ({ page, origin }) => {
      await openEmpty(page, origin);
      await mapAtRest(page);
      await dropFiles(page, [await fileOf(demoDem)]);
      await page.getByRole('button', { name: 'Other elevation…' }).waitFor();
      await page.getByRole('button', { name: 'Fold away' }).click();
      await zoomIn(page, 17);
      const view = await viewOf(page);

      await placePoint(page, 'Place the source', spring);
      await placePoint(page, 'Place the standpipe', standpipe);
      await placePoint(page, 'Place the pump', pump);
      await placePoint(page, 'Place the tank', tank);
      await drawLine(page, 'Draw the supply line', [spring, ...supplyBends, standpipe]);
      await choosePipe(page, 'PE100 SDR 17', '50');
      await drawLine(page, 'Draw the drive pipe', [standpipe, ...driveBends, pump]);
      await choosePipe(page, 'Galvanised steel Schedule 40', '1-1/4');
      await drawLine(page, 'Draw the delivery line', [pump, ...deliveryBends, tank]);
      await choosePipe(page, 'PE100 SDR 11', '25');
      await showPanel(page, 'Inputs');
      await page.getByRole('button', { name: 'Add a known flow' }).click();
      await fill(page, 'Flow', '16 L/min');
      await page.getByLabel('Pump data from').selectOption('sheet');
      await showPanel(page, 'Answer');

      const saved = await savedPlan(page);
      const features = JSON.parse(saved).features;
      const byRole = (role) => features.find((each) => each.properties.role === role).geometry.coordinates;
      for (const [role, place] of Object.entries({ source: spring, standpipe, pump, tank })) {
        assertNear(byRole(role), place, view, role);
      }
      const drawn = { supply: [spring, ...supplyBends, standpipe], drive: [standpipe, ...driveBends, pump] };
      drawn.delivery = [pump, ...deliveryBends, tank];
      for (const [role, places] of Object.entries(drawn)) {
        const line = byRole(role);
        assert.equal(line.length, places.length, role);
        line.forEach((vertex, at) => {
          assertNear(vertex, places[at], view, `${role}, vertex ${at}`);
        });
      }

      const answer = await assessText(saved, demoDem);
      assert.ok(answer.pump.fall_m.likely > 2, 'the drawn plan is to have a fall worth the name');
      await eventually(async () => assertAnswer(await answerNumbers(page), answer));
    },
  },
};
