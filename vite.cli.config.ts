import { defineConfig } from 'vite';
import { shippedLicences } from './scripts/lib/shipped-licences.mjs';

/** The command line, built for Node 20, which cannot run TypeScript itself. Packages are built in: nothing else is needed. */
export default defineConfig({
  publicDir: false,
  plugins: [shippedLicences().ofBuild()],
  ssr: { noExternal: true },
  build: {
    ssr: 'src/cli/main.ts',
    outDir: 'build/cli',
    emitAssets: true,
    target: 'node20',
    rollupOptions: {
      output: {
        entryFileNames: '[name].mjs',
        chunkFileNames: '[name]-[hash].mjs',
        // Names stay: a stack must say where a fault lies.
        minify: { mangle: false, compress: false, codegen: { removeWhitespace: true } },
      },
    },
  },
});
