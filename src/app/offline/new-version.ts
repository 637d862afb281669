import { signal } from '@preact/signals';

/** The worker of a new version that waits for the page to be loaded again. */
export const newVersion = signal<ServiceWorker | null>(null);

/** Whether the files of this page were replaced while it was open, so that parts of it cannot be loaded any more. */
export const pageReplaced = signal(false);

/** Looks, whenever a part of the page cannot be loaded, whether that is because another version lies there now. */
export function watchReplaced(): void {
  addEventListener('vite:preloadError', () => void lookForAnother());
}

async function lookForAnother(): Promise<void> {
  const own = document.querySelector('script[type="module"][src]')?.getAttribute('src');
  try {
    const reply = await fetch(new URL('./', document.baseURI), { cache: 'no-store' });
    if (own != null && reply.ok && !(await reply.text()).includes(own)) pageReplaced.value = true;
  } catch {
    // Without a network nothing can be said of what lies there.
  }
}

/** How long the page is left alone before the site is laid in for use without a network, ms. */
const FIRST_REST_MS = 3000;

/** Has the browser keep the whole site for use without a network; a page that is being developed is left alone. */
export async function startOffline(): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  await new Promise((resolve) => setTimeout(resolve, FIRST_REST_MS));
  try {
    const { serviceWorker } = navigator;
    const registration = await serviceWorker.register('./service-worker.js', { scope: './', updateViaCache: 'none' });
    if (serviceWorker.controller !== null) newVersion.value = registration.waiting;
    registration.addEventListener('updatefound', () => follow(registration.installing));
  } catch (error) {
    // Private windows refuse workers; the page works as before, with a network.
    console.info('Rillwright is not kept for use without a network:', error);
  }
}

function follow(worker: ServiceWorker | null): void {
  worker?.addEventListener('statechange', () => {
    if (worker.state === 'installed' && navigator.serviceWorker.controller !== null) newVersion.value = worker;
  });
}

/** Turns to the new version and loads the page again; what is not in a file is asked for as on every leaving. */
export function useNewVersion(): void {
  const worker = newVersion.value;
  if (worker === null) return;
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  worker.postMessage('use-new-version');
}
