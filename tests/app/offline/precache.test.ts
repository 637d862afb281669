import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { type Listed, SiteCache } from '../../../src/app/offline/worker/precache.ts';

/** The browser's caches, in memory: addresses to bodies, kept by name in the order of making. */
class CachesInMemory {
  readonly shelves = new Map<string, Map<string, Response>>();

  async open(name: string): Promise<Cache> {
    const shelf = this.shelves.get(name) ?? new Map<string, Response>();
    this.shelves.set(name, shelf);
    const keyOf = (wanted: RequestInfo | URL) => (wanted instanceof Request ? wanted.url : String(wanted));
    return {
      match: async (wanted: RequestInfo | URL) => shelf.get(keyOf(wanted))?.clone(),
      put: async (wanted: RequestInfo | URL, answer: Response) => void shelf.set(keyOf(wanted), answer.clone()),
    } as unknown as Cache;
  }

  async keys(): Promise<string[]> {
    return [...this.shelves.keys()];
  }

  async delete(name: string): Promise<boolean> {
    return this.shelves.delete(name);
  }
}

const SCOPE = 'https://planner.invalid/folder/';
const hashOf = (text: string) => createHash('sha256').update(text).digest('hex').slice(0, 16);

function siteOf(caches: CachesInMemory, version: string, files: Readonly<Record<string, string>>, served = files) {
  const asked: string[] = [];
  const listed = Object.entries(files).map(([path, text]): Listed => [path, hashOf(text)]);
  const site = new SiteCache(
    {
      caches: caches as unknown as CacheStorage,
      fetch: async (request) => {
        const path = request.url.slice(SCOPE.length);
        asked.push(path);
        const text = served[path];
        return text === undefined ? new Response('', { status: 404 }) : new Response(text);
      },
      digest: async (bytes) => new Uint8Array(createHash('sha256').update(new Uint8Array(bytes)).digest()).buffer,
    },
    SCOPE,
    { version, files: listed },
  );
  return { site, asked };
}

const FIRST = { 'index.html': 'page 1', 'assets/a.js': 'script', 'assets/dem.tif': 'heights' };

describe('the site kept for use without a network', () => {
  it('answers every file that was laid in, the page for any address of it', async () => {
    const { site } = siteOf(new CachesInMemory(), '1', FIRST);
    await site.layIn();
    expect(await (await site.answer(new Request(`${SCOPE}assets/a.js`)))?.text()).toBe('script');
    const visit = { url: `${SCOPE}?empty`, mode: 'navigate' } as Request;
    expect(await (await site.answer(visit))?.text()).toBe('page 1');
    expect(await site.answer(new Request(`${SCOPE}elsewhere`))).toBeNull();
  });

  it('fetches of a new version only what has changed', async () => {
    const caches = new CachesInMemory();
    await siteOf(caches, '1', FIRST).site.layIn();
    const { site, asked } = siteOf(caches, '2', { ...FIRST, 'index.html': 'page 2' });
    await site.layIn();
    expect(asked).toEqual(['index.html']);
    const visit = { url: SCOPE, mode: 'navigate' } as Request;
    expect(await (await site.answer(visit))?.text()).toBe('page 2');
  });

  it('is no version when a file is missing or not the one that was listed', async () => {
    const changed = siteOf(new CachesInMemory(), '1', FIRST, { ...FIRST, 'assets/a.js': 'another script' });
    await expect(changed.site.layIn()).rejects.toThrow(/assets\/a\.js: found .*, expected/);
    const { 'assets/a.js': _, ...rest } = FIRST;
    await expect(siteOf(new CachesInMemory(), '1', FIRST, rest).site.layIn()).rejects.toThrow(/answer 404/);
  });

  it('keeps the version before for pages still open, and throws older ones away', async () => {
    const caches = new CachesInMemory();
    for (const version of ['1', '2', '3']) {
      const { site } = siteOf(caches, version, { ...FIRST, 'index.html': `page ${version}` });
      await site.layIn();
      await site.clearOut();
    }
    expect([...caches.shelves.keys()]).toEqual([`rillwright ${SCOPE} 2`, `rillwright ${SCOPE} 3`]);
  });
});
