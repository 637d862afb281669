import { defineConfig } from 'vite';
import { offlineSite } from './scripts/lib/offline-site.mjs';

/** The static site: one page, relative addresses so that it can be served from any folder. */
export default defineConfig({
  base: './',
  plugins: [offlineSite()],
  build: { target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 1200 },
  worker: { format: 'es' },
  optimizeDeps: { exclude: ['maplibre-gl'] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
