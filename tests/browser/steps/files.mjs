import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';

export async function fileOf(path, name = basename(path)) {
  return { name, bytes: await readFile(path) };
}

/** Drops files on the page: drag events with a DataTransfer that holds them, as the browser sends them. */
export async function dropFiles(page, files, zone = 'elevation') {
  const data = files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') }));
  const dataTransfer = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const { name, base64 } of all) {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      transfer.items.add(new File([bytes], name));
    }
    return transfer;
  }, data);
  await page.dispatchEvent('body', 'dragover', { dataTransfer });
  await page.locator(`[data-drop="${zone}"]`).dispatchEvent('drop', { dataTransfer });
  await dataTransfer.dispose();
}

/** Chooses files with the button that asks for them. */
export async function chooseFiles(page, button, files) {
  const waiting = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: button, exact: true }).click();
  const chooser = await waiting;
  await chooser.setFiles(files.map(({ name, bytes }) => ({ name, buffer: Buffer.from(bytes), mimeType: '' })));
}
