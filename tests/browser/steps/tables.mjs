import { showPanel } from './planner.mjs';

/** Turns to one of the tables: Tanks, Pipe, Pump size or The year. */
export async function showTable(page, name) {
  await showPanel(page, 'Tables');
  const button = page.locator('.jobs-head').getByRole('button', { name, exact: true });
  await button.press('Enter');
  await page.locator('.jobs-head [aria-pressed="true"]').filter({ hasText: name }).waitFor();
}

/** Types into a field of the open table and leaves it. */
export async function typeInto(page, label, text) {
  const field = page.locator('.jobs').getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
}

/** The text of a file that a button hands to the browser, and its name. */
export async function downloaded(page, button) {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  const download = await waiting;
  const pieces = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece);
  return { name: download.suggestedFilename(), text: Buffer.concat(pieces).toString('utf8') };
}
