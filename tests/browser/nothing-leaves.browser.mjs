import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { demoDem, demoPlan } from './steps/command-line.mjs';
import { chooseFiles } from './steps/files.mjs';
import { mapAtRest } from './steps/map.mjs';
import { calm, openDemo } from './steps/planner.mjs';
import { serveRanges } from './steps/range-server.mjs';

/** The directives of a content security policy, by name. */
function directives(policy) {
  const parts = policy.split(';').map((part) => part.trim().split(/\s+/));
  return Object.fromEntries(parts.map(([name, ...sources]) => [name, sources]));
}

/** What an address that the user types may start with: a secure one, or one of this machine. */
const TYPED = ['https:', 'http://localhost:*', 'http://127.0.0.1:*'];

export const cases = {
  'the page may run its own scripts only, and ask its own origin, secure addresses and this machine': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.goto(origin);
      const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
      const found = directives(policy);
      assert.deepEqual(found['default-src'], ["'none'"]);
      assert.deepEqual(found['script-src'], ["'self'"]);
      assert.deepEqual(found['style-src'], ["'self'"]);
      assert.deepEqual(found['connect-src'], ["'self'", ...TYPED]);
      // Pictures of map tiles come through fetch; none is asked for by an element of the page.
      assert.deepEqual(found['img-src'], ["'self'", 'blob:', 'data:']);
      assert.deepEqual(found['require-trusted-types-for'], ["'script'"]);
      assert.deepEqual(found['form-action'], ["'none'"]);
      assert.deepEqual(found['base-uri'], ["'none'"]);
      const others = Object.entries(found).filter(([name]) => name !== 'connect-src' && name !== 'img-src');
      assert.ok(!/unsafe-|https?:|\*/.test(JSON.stringify(others)), policy);
    },
  },

  'a script in the page and a connection in the clear to elsewhere are stopped': async ({ browser, origin }) => {
    // A context of its own: what is stopped here is an error in the console, which is the point.
    const context = await browser.newContext({ locale: 'en-GB' });
    try {
      const page = await context.newPage();
      await page.goto(`${origin}/?empty`);
      const stopped = await page.evaluate(async () => {
        const kinds = [];
        const both = new Promise((seen) => {
          document.addEventListener('securitypolicyviolation', (event) => {
            // The policy of the page and that of the header both say it.
            if (!kinds.includes(event.effectiveDirective)) kinds.push(event.effectiveDirective);
            if (kinds.length === 2) seen();
          });
        });
        const script = document.createElement('script');
        script.src = URL.createObjectURL(new Blob(['globalThis.ranInline = true']));
        document.body.append(script);
        // An address set aside for documents, RFC 5737; the policy stops it before anything leaves.
        const answer = await fetch('http://192.0.2.1/').then(
          () => 'answered',
          () => 'stopped',
        );
        await both;
        return { kinds, answer, ran: globalThis.ranInline === true };
      });
      assert.deepEqual(stopped.kinds.sort(), ['connect-src', 'script-src-elem']);
      assert.deepEqual([stopped.answer, stopped.ran], ['stopped', false]);
    } finally {
      await context.close();
    }
  },

  'text becomes no markup and no script, wherever it comes from': async ({ browser, origin }) => {
    const context = await browser.newContext({ locale: 'en-GB' });
    try {
      const page = await context.newPage();
      await page.goto(`${origin}/?empty`);
      const refused = await page.evaluate(() => {
        const stops = (act) => {
          try {
            act();
            return false;
          } catch (error) {
            return error instanceof TypeError;
          }
        };
        const place = document.createElement('div');
        return {
          markup: stops(() => {
            place.innerHTML = '<img src=x>';
          }),
          script: stops(() => {
            document.createElement('script').textContent = '1';
          }),
          foreign: stops(() => new Worker('https://192.0.2.1/worker.js')),
          evaluated: stops(() => setTimeout('1')),
        };
      });
      assert.deepEqual(refused, { markup: true, script: true, foreign: true, evaluated: true });
    } finally {
      await context.close();
    }
  },

  'a sign that turns a name is shown as what it is, also out of a plan file': {
    options: calm,
    run: async ({ page, origin }) => {
      const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
      plan.rillwright.name = 'plan\u202enosj';
      const tank = plan.features.find(({ properties }) => properties.role === 'tank');
      tank.properties.name = 'tank\u202e1';
      await openDemo(page, origin);
      await chooseFiles(page, 'Open plan…', [{ name: 'turned.geojson', bytes: Buffer.from(JSON.stringify(plan)) }]);
      await page.waitForFunction(() => document.title === 'plan⟨U+202E⟩nosj · Rillwright');
      await page.locator('tr[data-tank]').filter({ hasText: 'tank⟨U+202E⟩1' }).first().waitFor();
      const raw = await page.evaluate(() => /\u202e/.test(document.body.innerText));
      assert.equal(raw, false);
    },
  },

  'nobody may frame the page, and every answer says so': async ({ page, origin }) => {
    const reply = await page.goto(origin);
    const headers = reply.headers();
    assert.match(headers['content-security-policy'], /frame-ancestors 'none'/);
    assert.equal(headers['x-content-type-options'], 'nosniff');
    assert.equal(headers['referrer-policy'], 'no-referrer');
  },

  'the demo asks its own origin for files and nothing else': {
    options: calm,
    run: async ({ page, context, origin }) => {
      const asked = [];
      context.on('request', (request) => asked.push({ url: request.url(), method: request.method() }));
      await openDemo(page, origin);
      await mapAtRest(page);
      const files = asked.filter(({ url }) => !/^(?:data|blob):/.test(url));
      assert.ok(files.some(({ url }) => url.endsWith('.tif')));
      assert.deepEqual(
        files.filter(({ url, method }) => method !== 'GET' || !url.startsWith(`${origin}/`)),
        [],
      );
    },
  },

  'an address that is typed is asked when the button is pressed, and no other is': {
    options: calm,
    run: async ({ page, context, origin, allowOrigin }) => {
      const server = await serveRanges(await readFile(demoDem));
      try {
        await openDemo(page, origin);
        const elsewhere = [];
        context.on('request', (request) => {
          const url = request.url();
          if (!/^(?:data|blob):/.test(url) && !url.startsWith(`${origin}/`)) elsewhere.push(url);
        });
        allowOrigin(server.origin);
        await page.getByText('Import, export, print', { exact: true }).click();
        await page.getByRole('button', { name: 'Open elevation by address…' }).click();
        const dialog = page.getByRole('dialog', { name: 'Open elevation by address' });
        await dialog.getByRole('textbox').pressSequentially(`${server.origin}/good/dem.tif`);
        assert.deepEqual([elsewhere, server.asked], [[], []]);
        await dialog.getByRole('button', { name: 'Ask there and open' }).click();
        await dialog.waitFor({ state: 'detached' });
        await mapAtRest(page);
        assert.ok(elsewhere.length > 0);
        assert.deepEqual(
          elsewhere.filter((url) => url !== `${server.origin}/good/dem.tif`),
          [],
        );
      } finally {
        await server.close();
      }
    },
  },
};
