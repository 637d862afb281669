import assert from 'node:assert/strict';

const frame = '.map-frame';
const canvas = '.map-frame canvas.maplibregl-canvas';
/** Side of the world at zoom 0 in the map's pixels. */
const WORLD = 512;
const DEGREE = Math.PI / 180;

/** Until the map has drawn all that it was told. */
export async function mapAtRest(page) {
  await page.locator(`${frame}[data-map-idle="true"]`).waitFor();
}

export async function viewOf(page) {
  const view = JSON.parse(await page.locator(frame).getAttribute('data-view'));
  const box = await page.locator(frame).boundingBox();
  return { ...view, box };
}

/** A place on the sphere of Web Mercator (EPSG:3857), as shares of the world from its north-western corner. */
function mercator([lon, lat]) {
  return [(lon + 180) / 360, (1 - Math.asinh(Math.tan(lat * DEGREE)) / Math.PI) / 2];
}

function inverse([x, y]) {
  return [x * 360 - 180, Math.atan(Math.sinh(Math.PI * (1 - 2 * y))) / DEGREE];
}

/** Where a longitude and latitude lies on the page, CSS pixels. */
export function pixelOf({ center, zoom, width, height, box }, place) {
  const scale = WORLD * 2 ** zoom;
  const [x, y] = mercator(place);
  const [centreX, centreY] = mercator(center);
  return { x: box.x + width / 2 + (x - centreX) * scale, y: box.y + height / 2 + (y - centreY) * scale };
}

/** The longitude and latitude under a pixel of the page. */
export function placeOf({ center, zoom, width, height, box }, { x, y }) {
  const scale = WORLD * 2 ** zoom;
  const [centreX, centreY] = mercator(center);
  return inverse([centreX + (x - box.x - width / 2) / scale, centreY + (y - box.y - height / 2) / scale]);
}

/** Zooms in on the middle of the map with the + key until it shows at least so much. */
export async function zoomIn(page, least) {
  await mapAtRest(page);
  while ((await viewOf(page)).zoom < least) await moveMap(page, '+');
  await mapAtRest(page);
}

/** Moves the map with a key that it knows, such as ArrowUp. */
export async function moveMap(page, key) {
  const before = await page.locator(frame).getAttribute('data-view');
  await focusMap(page);
  await page.keyboard.press(key);
  await page.locator(`${frame}:not([data-view='${before}'])`).waitFor();
}

export async function focusMap(page) {
  await page.locator(canvas).focus();
}

/** Moves the pointer to a place on the map, in two goes as a hand does. */
export async function pointAt(page, place) {
  const { x, y } = pixelOf(await viewOf(page), place);
  await assertOnMap(page, { x, y });
  await page.mouse.move(x, y, { steps: 2 });
}

export async function clickMap(page, place) {
  await pointAt(page, place);
  await page.mouse.down();
  await page.mouse.up();
}

/** Takes up a tool and clicks where the point is to stand. */
export async function placePoint(page, button, place) {
  await page.getByRole('button', { name: button, exact: true }).click();
  await page.locator('.map-view[data-tool="place"]').waitFor();
  await clickMap(page, place);
  await page.locator('.map-view[data-tool="select"]').waitFor();
}

/** Takes up the pencil; it is ready once the map has the keyboard. */
export async function takePencil(page, button) {
  await page.getByRole('button', { name: button, exact: true }).click();
  await page.locator(`.map-view[data-tool="draw"]`).waitFor();
  await page.waitForFunction((selector) => document.activeElement === document.querySelector(selector), canvas);
}

/** Draws a line by mouse from point to point, a click for each bend. */
export async function drawLine(page, button, places) {
  await mapAtRest(page);
  await takePencil(page, button);
  for (const place of places) await clickMap(page, place);
  await page.locator('.map-view[data-tool="select"]').waitFor();
}

async function assertOnMap(page, at) {
  const tag = await page.evaluate(({ x, y }) => document.elementFromPoint(x, y)?.className, at);
  assert.equal(tag, 'maplibregl-canvas', `found ${tag} at ${at.x}, ${at.y}, expected the map to be free there`);
}
