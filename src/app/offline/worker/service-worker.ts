import { type Precache, SiteCache } from './precache.ts';

declare const self: ServiceWorkerGlobalScope;
/** Put in by the build. */
declare const __PRECACHE__: Precache;

const site = new SiteCache(
  { caches, fetch: (request) => fetch(request), digest: (bytes) => crypto.subtle.digest('SHA-256', bytes) },
  self.registration.scope,
  __PRECACHE__,
);

self.addEventListener('install', (event) => event.waitUntil(site.layIn()));

self.addEventListener('activate', (event) => event.waitUntil(site.clearOut().then(() => self.clients.claim())));

// A new version waits until the user asks for it.
self.addEventListener('message', ({ data }) => {
  if (data === 'use-new-version') void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const ours = request.method === 'GET' && request.url.startsWith(self.registration.scope);
  if (ours) event.respondWith(site.answer(request).then((found) => found ?? fetch(request)));
});
