import { access, constants } from 'node:fs/promises';
import { join } from 'node:path';

/** Where an installed Chromium or Chrome usually is, by system. */
const usualPlaces = {
  linux: [
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
    '/usr/bin/google-chrome-stable',
    '/snap/bin/chromium',
    '/opt/google/chrome/chrome',
  ],
  darwin: [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ],
  win32: ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((variable) => {
    const base = process.env[variable];
    if (base === undefined) return [];
    return [
      join(base, 'Google', 'Chrome', 'Application', 'chrome.exe'),
      join(base, 'Chromium', 'Application', 'chrome.exe'),
    ];
  }),
};

/** Installed browsers to try, best first. `CHROMIUM_PATH` names one and rules out the others. */
export async function installedBrowsers() {
  const named = process.env.CHROMIUM_PATH;
  if (named !== undefined && named !== '') return [named];
  const found = [];
  for (const place of usualPlaces[process.platform] ?? []) if (await isProgram(place)) found.push(place);
  return found;
}

async function isProgram(path) {
  try {
    await access(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
