import assert from 'node:assert/strict';
import { createServer, request } from 'node:http';
import { installedPackage } from './steps/installed-package.mjs';
import { answerNumbers, assertAnswer } from './steps/numbers.mjs';
import { calm, openDemo } from './steps/planner.mjs';

/** What a package may weigh, so that a slow line carries it in a minute or two. */
const mostBytes = 6e6;

/** The site of another origin in a folder of a host that knows nothing else. */
async function inFolder(origin, folder) {
  const missed = [];
  const server = createServer((asked, answer) => {
    if (!asked.url.startsWith(folder)) {
      missed.push(asked.url);
      answer.writeHead(404).end();
      return;
    }
    const headers = { ...asked.headers, host: new URL(origin).host };
    request(new URL(asked.url.slice(folder.length - 1), origin), { method: asked.method, headers }, (found) => {
      found.pipe(answer.writeHead(found.statusCode, found.headers));
    })
      .on('error', () => answer.destroy())
      .end();
  });
  await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
  const close = () => {
    server.closeAllConnections();
    server.close();
  };
  return { origin: `http://127.0.0.1:${server.address().port}`, missed, close };
}

export const cases = {
  'the package shows the planner and answers on the command line, installed without a build and without other packages':
    {
      options: calm,
      run: async ({ page, allowOrigin }) => {
        const installed = await installedPackage();
        try {
          assert.ok(installed.bytes <= mostBytes, `found ${installed.bytes} bytes, expected ${mostBytes} at most`);
          assert.deepEqual(installed.installed, ['rillwright']);
          assert.match(await installed.text('LICENSE'), /MIT License/);
          assert.match(await installed.text('dist/licences.txt'), /^maplibre-gl [\s\S]+^terra-draw /m);
          assert.match(await installed.text('build/cli/licences.txt'), /^proj4 [\s\S]+^zod /m);
          assert.match(await installed.text('CHANGELOG.md'), /^## /m);
          const plan = installed.path('dist/demo/plan.geojson');
          const dem = installed.path('dist/demo/dem.tif');
          const answer = JSON.parse(await installed.command(['assess', plan, '--dem', dem, '--json']));
          const site = await installed.serve();
          try {
            allowOrigin(site.origin);
            await openDemo(page, site.origin);
            assertAnswer(await answerNumbers(page), answer);
          } finally {
            site.close();
          }
        } finally {
          await installed.remove();
        }
      },
    },

  'the built page runs from a folder of a static host and asks for nothing outside it': {
    options: calm,
    run: async ({ page, origin, allowOrigin }) => {
      const host = await inFolder(origin, '/some/where/planner/');
      try {
        allowOrigin(host.origin);
        await openDemo(page, `${host.origin}/some/where/planner/`);
        await page.locator('.map-pane canvas').first().waitFor();
        // Also the service worker, which lays the whole site in.
        await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
        assert.deepEqual(host.missed, []);
      } finally {
        host.close();
      }
    },
  },
};
