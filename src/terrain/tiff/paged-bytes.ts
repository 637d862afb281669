import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';

const PAGE_BYTES = 16 * 1024;
const PAGES_KEPT = 64;

/** Small reads of a file's directories and tables, served from whole pages so that a chain of tiny reads stays cheap. */
export class PagedBytes {
  readonly source: ByteSource;
  readonly #pages = new Map<number, Promise<Uint8Array>>();

  constructor(source: ByteSource) {
    this.source = source;
  }

  async bytes(offset: number, length: number, where: string): Promise<Uint8Array> {
    this.#checkInside(offset, length, where);
    if (length === 0) return new Uint8Array(0);
    const first = Math.floor(offset / PAGE_BYTES);
    const last = Math.floor((offset + length - 1) / PAGE_BYTES);
    if (first === last) {
      const page = await this.#page(first);
      const start = offset - first * PAGE_BYTES;
      return page.subarray(start, start + length);
    }
    const [bytes] = await this.source.read([{ offset, length }]);
    return bytes ?? refuse({ code: 'short-read', where, found: 'no bytes', expected: `${length} bytes` });
  }

  #checkInside(offset: number, length: number, where: string): void {
    const { size } = this.source;
    if (!Number.isSafeInteger(offset) || offset < 0 || length < 0 || offset + length > size) {
      refuse({
        code: 'outside-file',
        where,
        found: `${length} bytes at ${offset}`,
        expected: `a place inside the file's ${size} bytes`,
      });
    }
  }

  #page(index: number): Promise<Uint8Array> {
    const kept = this.#pages.get(index);
    if (kept !== undefined) return kept;
    const offset = index * PAGE_BYTES;
    const length = Math.min(PAGE_BYTES, this.source.size - offset);
    const page = this.source.read([{ offset, length }]).then(([bytes]) => bytes ?? new Uint8Array(0));
    if (this.#pages.size >= PAGES_KEPT) this.#dropOldest();
    this.#pages.set(index, page);
    page.catch(() => this.#pages.delete(index));
    return page;
  }

  #dropOldest(): void {
    const oldest = this.#pages.keys().next();
    if (oldest.done !== true) this.#pages.delete(oldest.value);
  }
}
