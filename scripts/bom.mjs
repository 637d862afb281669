// Writes to the output what is shipped, as CycloneDX: npm's own list of what is installed, without what only builds and tests.
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { root, runNode } from './lib/run-program.mjs';
import { licencesFile } from './lib/shipped-licences.mjs';

/** Name and version of every package whose code went into a build. */
async function shippedBy(options) {
  const outDir = await mkdtemp(join(tmpdir(), 'rillwright-bom-'));
  try {
    await build({ root, logLevel: 'error', ...options, build: { outDir, emptyOutDir: true } });
    const text = await readFile(join(outDir, licencesFile), 'utf8');
    return [...text.matchAll(/^={80}\n(\S+) (\S+) \(/gm)].map(([, name, version]) => `${name}@${version}`);
  } finally {
    await rm(outDir, { recursive: true, force: true });
  }
}

const site = await shippedBy({});
const commandLine = await shippedBy({ configFile: join(root, 'vite.cli.config.ts') });
const shipped = new Set([...site, ...commandLine]);
const npm = process.env.npm_execpath;
if (npm === undefined) throw new Error('found no npm, expected to be run by npm run bom');
const { code, output } = await runNode([npm, 'sbom', '--include=dev', '--sbom-format=cyclonedx']);
if (code !== 0) throw new Error(`npm sbom ended with ${code}, expected 0:\n${output}`);
const whole = JSON.parse(output);
const own = whole.metadata.component['bom-ref'];
const isShipped = (reference) => shipped.has(reference);
const components = whole.components.filter((each) => isShipped(each['bom-ref']));
const dependencies = whole.dependencies
  .filter(({ ref }) => ref === own || isShipped(ref))
  .map(({ ref, dependsOn = [] }) => ({ ref, dependsOn: dependsOn.filter(isShipped) }));
const missing = [...shipped].filter((each) => !components.some((one) => one['bom-ref'] === each));
if (missing.length > 0) throw new Error(`found no entry for ${missing.join(', ')}, expected one each`);
console.log(JSON.stringify({ ...whole, components, dependencies }, null, 2));
