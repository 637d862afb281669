import { defineConfig } from 'vite';
import { offlineSite } from './scripts/lib/offline-site.mjs';
import { shippedPackages } from './scripts/lib/shipped-packages.mjs';

const shipped = shippedPackages();

/** The static site: one page, relative addresses so that it can be served from any folder. */
export default defineConfig({
  base: './',
  plugins: [shipped.page, offlineSite()],
  build: { target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 1200 },
  worker: { format: 'es', plugins: () => [shipped.worker] },
  optimizeDeps: { exclude: ['maplibre-gl'] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
