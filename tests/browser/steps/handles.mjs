/**
 * Files of the browser's own file system for one site: their handles do what those of the disk do, and ask nobody.
 */

/** Writes such a file; bytes beyond its own pad it to a size. */
export async function putFile(page, name, content, size = 0) {
  const base64 = Buffer.from(content).toString('base64');
  await page.evaluate(
    async ({ name, base64, size }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const root = await navigator.storage.getDirectory();
      const writing = await (await root.getFileHandle(name, { create: true })).createWritable();
      await writing.write(bytes);
      if (size > bytes.length) await writing.truncate(size);
      await writing.close();
    },
    { name, base64, size },
  );
}

export function textOnDisk(page, name) {
  return page.evaluate(async (name) => {
    const root = await navigator.storage.getDirectory();
    return (await (await root.getFileHandle(name)).getFile()).text();
  }, name);
}

/** Drops such a file on the page, with its handle as a file of the disk has one, or without. */
export async function dropHandle(page, name, { withHandle = true } = {}) {
  await page.evaluate(
    async ({ name, withHandle }) => {
      const root = await navigator.storage.getDirectory();
      const handle = await root.getFileHandle(name);
      DataTransferItem.prototype.getAsFileSystemHandle = async () => (withHandle ? handle : null);
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(await handle.getFile());
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    },
    { name, withHandle },
  );
}
