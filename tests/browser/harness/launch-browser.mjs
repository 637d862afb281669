import { chromium } from 'playwright-core';
import { installedBrowsers } from './find-browser.mjs';
import { packageBrowser } from './package-browser.mjs';

/** Software WebGL, so that the map draws the same on any machine. */
const graphics = ['--ignore-gpu-blocklist', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
/** No name resolves but this machine's: whatever the page asks for, nothing leaves. */
const offline = ['--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost'];

/** A browser that takes longer to start does not start, ms. */
const longestStart_ms = 120_000;

const toInstall = `No browser could be started. Install Chromium or Chrome (Debian and Ubuntu: apt install chromium),
or name one with CHROMIUM_PATH=/path/to/chrome.`;

/**
 * Starts a headless Chromium: an installed one, else the one of the npm package. `BROWSER_FROM=package` leaves out the
 * installed ones; `BROWSER_LIBRARIES=package` also uses the package's shared libraries at once.
 */
export async function launchBrowser() {
  const { started, from } = await firstThatStarts((options) => chromium.launch(options));
  return { browser: started, from: `${from} ${started.version()}` };
}

/** Starts one in the same way for others to connect to. */
export async function serveBrowser() {
  const { started, from } = await firstThatStarts((options) => chromium.launchServer(options));
  return { address: started.wsEndpoint(), from, close: () => started.close() };
}

/** Starts one that keeps what it is given in a folder, as a person's own browser does. */
export async function launchKept(folder, options) {
  const { started } = await firstThatStarts((way) => chromium.launchPersistentContext(folder, { ...way, ...options }));
  return started;
}

async function firstThatStarts(start) {
  const failures = [];
  for (const way of await waysToLaunch()) {
    try {
      return { started: await start({ headless: true, timeout: longestStart_ms, ...way.options }), from: way.from };
    } catch (error) {
      failures.push(`${way.from}: ${String(error.message).split('\n').slice(0, 12).join('\n  ')}`);
    }
  }
  throw new Error(`${toInstall}\nTried:\n${failures.join('\n') || 'nothing: none is in a usual place'}`);
}

async function waysToLaunch() {
  const sandbox = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const args = [...graphics, ...offline, ...sandbox];
  const installed = process.env.BROWSER_FROM === 'package' ? [] : await installedBrowsers();
  const ways = installed.map((executablePath) => ({ from: executablePath, options: { executablePath, args } }));
  if (process.env.CHROMIUM_PATH !== undefined && installed.length > 0) return ways;
  return [...ways, ...(await packageWays(args))];
}

/** First with the machine's own libraries, then with those of the package, which a bare machine needs. */
async function packageWays(args) {
  const found = await packageBrowser();
  if (found === null) return [];
  const { executablePath, libraries, fonts } = found;
  const env = { ...process.env, FONTCONFIG_FILE: fonts };
  const all = [...args, '--no-sandbox', '--no-zygote', '--in-process-gpu'];
  const own = { from: 'npm package', options: { executablePath, env, args: all } };
  const path = [libraries, process.env.LD_LIBRARY_PATH].filter(Boolean).join(':');
  const bundled = {
    from: 'npm package with its libraries',
    options: { executablePath, env: { ...env, LD_LIBRARY_PATH: path }, args: all },
  };
  return process.env.BROWSER_LIBRARIES === 'package' ? [bundled] : [own, bundled];
}
