import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';

const entry = 'src/app/offline/worker/service-worker.ts';
const name = 'service-worker';
const demoFolder = 'data/demo/';
const placeholder = '__PRECACHE__';

/**
 * Builds the service worker beside the site and writes into it the list of the site's files, each with a hash of its bytes:
 * a changed file changes the worker, which is how a browser learns of a new version.
 */
export function offlineSite() {
  let config;
  return {
    name: 'offline-site',
    apply: 'build',
    enforce: 'post',
    config: () => ({
      build: {
        rolldownOptions: {
          input: { index: 'index.html', [name]: entry },
          output: {
            entryFileNames: (chunk) => (chunk.name === name ? `${name}.js` : 'assets/[name]-[hash].js'),
            // The demo's files go by their own names: they are files for people, too.
            assetFileNames: ({ originalFileNames: [path = ''] = [] }) =>
              path.includes(demoFolder) ? 'demo/[name][extname]' : 'assets/[name]-[hash][extname]',
          },
        },
      },
    }),
    configResolved(resolved) {
      config = resolved;
    },
    generateBundle: {
      order: 'post',
      async handler(_, bundle) {
        const worker = Object.values(bundle).find(({ fileName }) => fileName === `${name}.js`);
        if (worker?.type !== 'chunk' || !worker.code.includes(placeholder))
          throw new Error(`found no ${placeholder} in ${name}.js, expected it there`);
        if (worker.imports.length > 0)
          throw new Error(`found imports of ${worker.imports} in ${name}.js, expected none`);
        const built = Object.values(bundle)
          .filter((each) => each !== worker)
          .map((each) => [each.fileName, each.type === 'chunk' ? each.code : each.source]);
        const files = [...built, ...(await publicFiles(config.publicDir))]
          .map(([path, bytes]) => [path, hashOf(bytes)])
          .sort(([a], [b]) => (a < b ? -1 : 1));
        const version = hashOf(JSON.stringify(files));
        worker.code = worker.code.replace(placeholder, () => JSON.stringify({ version, files }));
      },
    },
  };
}

async function publicFiles(folder) {
  if (!folder) return [];
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const paths = entries.filter((each) => each.isFile()).map((each) => join(each.parentPath, each.name));
  return Promise.all(paths.map(async (path) => [relative(folder, path).replaceAll(sep, '/'), await readFile(path)]));
}

function hashOf(bytes) {
  return createHash('sha256').update(bytes).digest('hex').slice(0, 16);
}
