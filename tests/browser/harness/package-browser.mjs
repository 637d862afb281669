import { access, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { brotliDecompress } from 'node:zlib';
import { unpackTar } from './read-tar.mjs';

const inflate = promisify(brotliDecompress);
const packageName = '@sparticuz/chromium';

/**
 * The headless Chromium that comes with an npm package, for Linux on x64: the program, its software OpenGL, fonts, and the
 * shared libraries that a bare machine lacks. It is unpacked once, next to the installed packages.
 */
export async function packageBrowser() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  const home = fileURLToPath(new URL(`../../../node_modules/${packageName}`, import.meta.url));
  const { version } = createRequire(import.meta.url)(join(home, 'package.json'));
  const cache = fileURLToPath(new URL('../../../node_modules/.cache/', import.meta.url));
  const folder = join(cache, `chromium-${version}`);
  if (!(await exists(folder))) await unpack(join(home, 'bin'), cache, folder);
  const fonts = join(folder, 'fonts.conf');
  await writeFile(fonts, fontConfiguration(folder));
  return { executablePath: join(folder, 'chromium'), libraries: join(folder, 'al2023', 'lib'), fonts };
}

/** The package's own configuration names folders of another system. */
function fontConfiguration(folder) {
  const dirs = ['/usr/share/fonts', '/usr/local/share/fonts', join(folder, 'fonts')];
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
${dirs.map((dir) => `  <dir>${dir}</dir>`).join('\n')}
  <cachedir>${join(folder, 'font-cache')}</cachedir>
</fontconfig>
`;
}

/** Unpacks beside the final place and renames at the end, so that a half unpacked browser is never taken for a whole one. */
async function unpack(bin, cache, folder) {
  const partial = `${folder}.partial-${process.pid}`;
  await mkdir(cache, { recursive: true });
  await rm(partial, { recursive: true, force: true });
  await mkdir(partial);
  await writeFile(join(partial, 'chromium'), await inflate(await readFile(join(bin, 'chromium.br'))), { mode: 0o755 });
  for (const [archive, into] of [
    ['swiftshader.tar.br', '.'],
    ['fonts.tar.br', 'fonts'],
    ['al2023.tar.br', 'al2023'],
  ]) {
    await unpackTar(await inflate(await readFile(join(bin, archive))), join(partial, into));
  }
  await rename(partial, folder);
}

async function exists(path) {
  try {
    await access(path);
    return true;
  } catch {
    return false;
  }
}
