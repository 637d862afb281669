/** Context of a case: nothing moves by itself, so that what is looked at is where it stays; the language is one of metric units. */
export const calm = { reducedMotion: 'reduce', locale: 'en-GB' };

/** The demo valley with its plan reckoned: every tank of the table has its numbers. */
export async function openDemo(page, origin) {
  await page.goto(origin);
  await reckoned(page);
}

/** Every tank of the table has its numbers, and they are those of the draws. */
export async function reckoned(page) {
  await page.locator('tr[data-tank] [data-field="delivery-per-day"]:not([data-value=""])').first().waitFor();
  await page.locator('.plan-verdict[data-busy="false"]').waitFor();
}

/** A planner without plan, elevation or picture. */
export async function openEmpty(page, origin) {
  await page.goto(`${origin}/?empty`);
  await page.getByRole('heading', { name: 'Bring the shape of the ground' }).waitFor();
}

/** Opens a panel from the keyboard, so that the pointer stays where it is. */
export async function showPanel(page, name) {
  await page.getByRole('tab', { name, exact: true }).press('Enter');
  await page.getByRole('tab', { name, exact: true, selected: true }).waitFor();
}

/** The row of a point or a line in the water path. */
export function courseItem(page, name) {
  return page.locator('.course-item').filter({ has: page.getByText(name, { exact: true }) });
}

/** The plan as the page saves it: the text of the file that the browser is handed. */
export async function savedPlan(page) {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: /^Save plan/ }).click();
  const download = await waiting;
  const pieces = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece);
  return Buffer.concat(pieces).toString('utf8');
}

/** What was drawn and typed of a plan's text: all of it but the answer that it was saved with. */
export function drawnIn(text) {
  const plan = JSON.parse(text);
  delete plan.rillwright.last_answer;
  return plan;
}

/** Whether there is a step that could be undone. */
export async function canUndo(page) {
  return page.getByRole('button', { name: 'Undo', exact: true }).isEnabled();
}
