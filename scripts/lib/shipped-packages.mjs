import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';

const FILE = 'licences.json';
const FOLDER = /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+(?=[\\/])/;
const LICENCE = /^(licen[cs]e|copying)(\.|-|$)/i;

/**
 * Writes beside the site which packages are in it, with their licences: every package of which a module went into a bundle of
 * the page or of one of its workers. `page` goes among the plugins of the page, `worker` among those of the workers.
 */
export function shippedPackages() {
  const folders = new Set();
  const gather = (_, bundle) => {
    for (const part of Object.values(bundle)) {
      for (const id of Object.keys(part.modules ?? {})) {
        const folder = FOLDER.exec(id.replace(/^\0/, ''))?.[0];
        if (folder !== undefined) folders.add(folder);
      }
    }
  };
  return {
    worker: { name: 'shipped-packages-of-worker', generateBundle: gather },
    page: {
      name: 'shipped-packages',
      apply: 'build',
      enforce: 'post',
      async generateBundle(options, bundle) {
        gather(options, bundle);
        const found = await Promise.all([...folders].map(aboutPackage));
        const packages = found.sort((a, b) => (a.name < b.name ? -1 : 1));
        this.emitFile({ type: 'asset', fileName: FILE, source: `${JSON.stringify(packages, null, 1)}\n` });
      },
    },
  };
}

async function aboutPackage(folder) {
  const { name, version, license } = JSON.parse(await readFile(join(folder, 'package.json'), 'utf8'));
  if (typeof license !== 'string') throw new Error(`${name}: found no licence in its package.json, expected one`);
  const file = (await readdir(folder)).find((each) => LICENCE.test(each));
  const text = file === undefined ? '' : (await readFile(join(folder, file), 'utf8')).trim();
  return { name, version, licence: license, text };
}
