import { defineConfig } from 'vite';
import { offlineSite } from './scripts/lib/offline-site.mjs';
import { shippedLicences } from './scripts/lib/shipped-licences.mjs';

const licences = shippedLicences();

/** The static site: one page, relative addresses so that it can be served from any folder. */
export default defineConfig({
  base: './',
  plugins: [licences.ofBuild(), offlineSite()],
  build: { target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 1200 },
  worker: { format: 'es', plugins: () => [licences.ofWorker()] },
  optimizeDeps: { exclude: ['maplibre-gl'] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
