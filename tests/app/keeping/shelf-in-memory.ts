import type { CopyShelf } from '../../../src/app/autosave/second-copy.ts';

/** A second store that keeps its texts in memory. */
export class ShelfInMemory implements CopyShelf {
  readonly texts: Map<string, string>;

  constructor(texts: ReadonlyMap<string, string> = new Map()) {
    this.texts = new Map(texts);
  }

  names = async () => [...this.texts.keys()];
  read = async (name: string) => this.texts.get(name) ?? null;
  write = async (name: string, text: string) => void this.texts.set(name, text);
  remove = async (name: string) => void this.texts.delete(name);
}
