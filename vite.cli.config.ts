import { defineConfig } from 'vite';

/** The command line, built for Node 20, which cannot run TypeScript itself. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: 'src/cli/main.ts',
    outDir: 'build/cli',
    target: 'node20',
    rollupOptions: { output: { entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' } },
  },
});
