import assert from 'node:assert/strict';
import { eventually } from './eventually.mjs';

/** A page whose renderer is killed, as by the system: no handler of the page runs any more. */
export async function kill(page) {
  const session = await page.context().newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  // The answer never comes: who would give it is dead.
  session.send('Page.crash').catch(() => undefined);
  await crashed;
}

export const notice = (page, kind) => page.locator(`[data-notice="${kind}"]`);

/** The plans of the browser's database, read as another page of the site could read them. */
export function keptPlans(page) {
  return page.evaluate(async () => {
    const answered = (request) =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await answered(indexedDB.open('rillwright', 1));
    const values = await answered(database.transaction('kept').objectStore('kept').getAll());
    database.close();
    return values.flatMap(({ plans }) => plans ?? []);
  });
}

export async function keptNames(page) {
  return (await keptPlans(page)).map(({ name }) => name);
}

/** Waits until the browser's database holds a plan of that name. */
export async function keptAs(page, name) {
  await eventually(async () => assert.ok((await keptNames(page)).includes(name), `${name} is kept`));
}

/** The texts of the second copies, one after the other. */
export function secondCopies(page) {
  return page.evaluate(async () => {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('kept-plans');
    const texts = [];
    for await (const handle of folder.values()) texts.push(await (await handle.getFile()).text());
    return texts.join('\n');
  });
}
