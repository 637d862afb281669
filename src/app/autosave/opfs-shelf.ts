import type { CopyShelf } from './second-copy.ts';

const FOLDER = 'kept-plans';
const ENDING = '.txt';

/** The folder of the site among the browser's own files: another store than its database, and torn by other accidents. */
export class OpfsShelf implements CopyShelf {
  #folder: Promise<FileSystemDirectoryHandle> | null = null;

  async names(): Promise<readonly string[]> {
    const names: string[] = [];
    for await (const name of (await this.#open()).keys()) {
      if (name.endsWith(ENDING)) names.push(name.slice(0, -ENDING.length));
    }
    return names;
  }

  async read(name: string): Promise<string | null> {
    try {
      const handle = await (await this.#open()).getFileHandle(name + ENDING);
      return await (await handle.getFile()).text();
    } catch {
      return null;
    }
  }

  /** The browser writes beside the file and puts it in place when it is closed: it is the old text or the new one. */
  async write(name: string, text: string): Promise<void> {
    const handle = await (await this.#open()).getFileHandle(name + ENDING, { create: true });
    const writing = await handle.createWritable();
    await writing.write(text);
    await writing.close();
  }

  async remove(name: string): Promise<void> {
    try {
      await (await this.#open()).removeEntry(name + ENDING);
    } catch {
      // It was not there.
    }
  }

  #open(): Promise<FileSystemDirectoryHandle> {
    this.#folder ??= this.#opened();
    return this.#folder;
  }

  async #opened(): Promise<FileSystemDirectoryHandle> {
    try {
      return await (await navigator.storage.getDirectory()).getDirectoryHandle(FOLDER, { create: true });
    } catch (error) {
      this.#folder = null;
      throw error;
    }
  }
}

/** Null in browsers that have no such files, or none that a page can write. */
export function opfsShelf(): OpfsShelf | null {
  const there = 'storage' in navigator && 'getDirectory' in navigator.storage;
  return there && 'createWritable' in FileSystemFileHandle.prototype ? new OpfsShelf() : null;
}
