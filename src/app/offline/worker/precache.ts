/** A file of the site with the start of the SHA-256 of its bytes, in hexadecimal. */
export type Listed = readonly [path: string, hash: string];

/** What one version of the site consists of; the build writes the list into the worker. */
export interface Precache {
  readonly version: string;
  readonly files: readonly Listed[];
}

/** As much of the browser's caches, network and digest as is needed. */
export interface Shelf {
  readonly caches: CacheStorage;
  readonly fetch: (request: Request) => Promise<Response>;
  readonly digest: (bytes: ArrayBuffer) => Promise<ArrayBuffer>;
}

/** Files that are fetched at once while a version is laid in. */
const AT_ONCE = 4;

export class SiteCache {
  readonly #shelf: Shelf;
  readonly #scope: string;
  readonly #precache: Precache;

  constructor(shelf: Shelf, scope: string, precache: Precache) {
    this.#shelf = shelf;
    this.#scope = scope;
    this.#precache = precache;
  }

  /** Lays in every file of this version; those that a version before has with the same bytes are taken from there. */
  async layIn(): Promise<void> {
    const cache = await this.#shelf.caches.open(this.#name());
    const left = [...this.#precache.files];
    const work = async () => {
      for (let file = left.pop(); file !== undefined; file = left.pop()) await this.#layInOne(cache, file);
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  /** Throws other versions of this site away but the one before, which open pages may still ask for a part. */
  async clearOut(): Promise<void> {
    const names = (await this.#shelf.caches.keys()).filter((name) => this.#isOurs(name) && name !== this.#name());
    for (const name of names.slice(0, -1)) await this.#shelf.caches.delete(name);
  }

  /** The answer to a request from what is laid in; null when it is none of the site's files. */
  async answer(request: Request): Promise<Response | null> {
    const page = request.mode === 'navigate';
    const wanted = page ? this.#addressOf('index.html') : request.url;
    const options = { ignoreVary: true, ignoreSearch: page };
    for (const name of [this.#name(), ...(await this.#others())]) {
      const cache = await this.#shelf.caches.open(name);
      const found = await cache.match(wanted, options);
      if (found !== undefined) return found;
    }
    return null;
  }

  async #layInOne(cache: Cache, [path, hash]: Listed): Promise<void> {
    const address = this.#addressOf(path);
    if (await this.#has(cache, address, hash)) return;
    for (const name of await this.#others()) {
      const before = await this.#shelf.caches.open(name);
      if (!(await this.#has(before, address, hash))) continue;
      const kept = await before.match(address, { ignoreVary: true });
      if (kept !== undefined) return cache.put(address, kept);
    }
    const answer = await this.#shelf.fetch(new Request(address, { cache: 'no-cache' }));
    const bytes = await answer.clone().arrayBuffer();
    const got = answer.ok ? await this.#hashOf(bytes) : `answer ${answer.status}`;
    // A half changed site is no version: the next look tries again.
    if (got !== hash) throw new Error(`${path}: found ${got}, expected ${hash}`);
    await cache.put(address, answer);
  }

  async #has(cache: Cache, address: string, hash: string): Promise<boolean> {
    const found = await cache.match(address, { ignoreVary: true });
    return found !== undefined && (await this.#hashOf(await found.arrayBuffer())) === hash;
  }

  async #hashOf(bytes: ArrayBuffer): Promise<string> {
    const digest = new Uint8Array(await this.#shelf.digest(bytes));
    return [...digest.subarray(0, 8)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  }

  async #others(): Promise<readonly string[]> {
    const names = await this.#shelf.caches.keys();
    return names.filter((name) => this.#isOurs(name) && name !== this.#name()).reverse();
  }

  #addressOf(path: string): string {
    return new URL(path, this.#scope).href;
  }

  /** Sites of several folders share one origin's caches; the folder is part of the name. */
  #name(): string {
    return `rillwright ${this.#scope} ${this.#precache.version}`;
  }

  #isOurs(name: string): boolean {
    return name.startsWith(`rillwright ${this.#scope} `);
  }
}
