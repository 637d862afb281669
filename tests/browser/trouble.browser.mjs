import assert from 'node:assert/strict';
import { assertAccessible } from './steps/accessibility.mjs';
import { eventually } from './steps/eventually.mjs';
import { calm, openDemo, savedPlan, showPanel } from './steps/planner.mjs';

const telephone = { width: 390, height: 844 };
const onTelephone = { ...calm, viewport: telephone, hasTouch: true };

const trouble = (page) => page.getByRole('dialog', { name: 'Something is wrong' });
const firstCause = (page) => trouble(page).locator('.cause-list > li').first();

async function openTrouble(page) {
  await page.getByRole('button', { name: 'Something is wrong…' }).click();
  await trouble(page).waitFor();
}

/** Where a picture of the page is kept for somebody to look at, when asked for. */
async function picture(page, name) {
  if (process.env.PICTURES_TO) await page.screenshot({ path: `${process.env.PICTURES_TO}/${name}.png` });
}

export const cases = {
  'a stopped ram on a telephone: from what is seen to the remedy, by touch': {
    options: onTelephone,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByText('Menu', { exact: true }).tap();
      await page.getByRole('button', { name: 'Something is wrong…' }).tap();
      await trouble(page).waitFor();
      await picture(page, 'trouble-telephone');
      await assertAccessible(page, 'nothing seen yet, on a telephone');
      await trouble(page).getByText('It stands, waste valve open, and pours').tap();
      await trouble(page).getByLabel('Water at the drive pipe’s inlet').fill('0.9 m');
      await trouble(page).getByLabel('Water over the waste valve').tap();
      await eventually(async () => assert.equal(await firstCause(page).getAttribute('data-cause'), 'level-sunk'));
      const strip = trouble(page).locator('.likeliest');
      assert.match(await strip.textContent(), /The water at the drive pipe has sunk/);
      await strip.getByRole('link').tap();
      await firstCause(page)
        .getByText(/Bring the water at the drive pipe back to/)
        .waitFor();
      await picture(page, 'trouble-telephone-answer');
      await assertAccessible(page, 'a sunk level, on a telephone');
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(wide <= telephone.width, `found a page ${wide} px wide`);
    },
  },

  'the same by keyboard alone, and back to the button': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByRole('button', { name: 'Something is wrong…' }).press('Enter');
      await trouble(page).waitFor();
      await trouble(page).getByRole('radio', { name: 'It stands, waste valve shut' }).press('Space');
      await trouble(page).getByLabel('What trickles from the shut waste valve').focus();
      await page.keyboard.type('15 L/min');
      await page.keyboard.press('Tab');
      await eventually(async () => assert.equal(await firstCause(page).getAttribute('data-cause'), 'seat-leak'));
      await firstCause(page)
        .getByText(/Clean the seat of the waste valve/)
        .waitFor();
      assert.match(await firstCause(page).locator('svg').getAttribute('aria-label'), /expected/);
      await picture(page, 'trouble-wide');
      await assertAccessible(page, 'a leaking seat');
      await page.keyboard.press('Escape');
      await trouble(page).waitFor({ state: 'detached' });
      assert.equal(await page.evaluate(() => document.activeElement?.textContent?.trim()), 'Something is wrong…');
    },
  },

  'taps count the beats and the counted ram is ranked': {
    options: onTelephone,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByText('Menu', { exact: true }).tap();
      await openTrouble(page);
      const tap = trouble(page).getByRole('button', { name: 'Tap with every beat' });
      await tap.waitFor();
      // Evenly timed events, whatever the machine does meanwhile.
      await tap.evaluate((button) => {
        for (let i = 0; i < 31; i += 1) {
          const event = new MouseEvent('click', { bubbles: true });
          Object.defineProperty(event, 'timeStamp', { value: 1000 + 1250 * i });
          button.dispatchEvent(event);
        }
      });
      await trouble(page)
        .getByText(/of 30: 48 a minute, uneven by 0 %/)
        .waitFor();
      await eventually(async () =>
        assert.match(await trouble(page).getByLabel('Beats a minute', { exact: true }).inputValue(), /^48(\.0)?$/),
      );
      await firstCause(page).waitFor();
    },
  },

  'a refused microphone is said, and taps remain': {
    options: { ...calm, permissions: [] },
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
      });
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page)
        .getByRole('button', { name: /Count by the microphone/ })
        .click();
      await trouble(page).getByText('The microphone was not allowed.').waitFor();
      await assertAccessible(page, 'a refused microphone');
      await trouble(page).getByRole('button', { name: 'OK', exact: true }).click();
      await trouble(page).getByRole('button', { name: 'Tap with every beat' }).click();
      await trouble(page).getByText('1 of 30').waitFor();
    },
  },

  'an absent microphone is said': {
    options: calm,
    run: async ({ page, origin }) => {
      await page.addInitScript(() => {
        Object.defineProperty(navigator, 'mediaDevices', { value: undefined });
      });
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page)
        .getByRole('button', { name: /Count by the microphone/ })
        .click();
      await trouble(page).getByText('This device gives the page no microphone.').waitFor();
    },
  },

  'a microphone counts the beats on the device': {
    options: calm,
    run: async ({ page, origin }) => {
      // The microphone is a made-up ram of 72 beats a minute.
      await page.addInitScript(() => {
        navigator.mediaDevices.getUserMedia = async () => {
          const context = new AudioContext();
          const buffer = context.createBuffer(1, context.sampleRate * 10, context.sampleRate);
          const samples = buffer.getChannelData(0);
          for (let at = 0.2; at < 10; at += 60 / 72) {
            for (let i = 0; i < 0.1 * context.sampleRate; i += 1) {
              const place = Math.floor(at * context.sampleRate) + i;
              if (place < samples.length) samples[place] = Math.exp(-i / 900) * Math.sin(i / 8) * 0.8;
            }
          }
          const source = context.createBufferSource();
          source.buffer = buffer;
          source.loop = true;
          const out = context.createMediaStreamDestination();
          source.connect(out);
          source.start();
          return out.stream;
        };
      });
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page)
        .getByRole('button', { name: /Count by the microphone/ })
        .click();
      await trouble(page)
        .getByText(/Listening: (?:1[2-9]|[2-5]\d) of 60 s/)
        .waitFor();
      await trouble(page).getByRole('button', { name: 'Enough' }).click();
      const heard = trouble(page).getByText(/Heard \d+ beats a minute/);
      await heard.waitFor();
      const beats = Number(/Heard (\d+)/.exec(await heard.textContent())?.[1]);
      assert.ok(Math.abs(beats / 72 - 1) < 0.06, `heard ${beats} beats a minute of 72`);
      await trouble(page).getByRole('button', { name: 'Take it' }).click();
      await firstCause(page).waitFor();
    },
  },

  'records are kept in the plan, shown over their dates, and compared with': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page).getByText('There is no record of this ram').waitFor();
      await trouble(page).getByRole('button', { name: 'Records', exact: true }).click();
      for (const [date, beats] of [
        ['2026-05-14', '58'],
        ['2026-09-30', '55'],
      ]) {
        await trouble(page).getByRole('button', { name: 'New record' }).click();
        const card = trouble(page).locator('.record[open]').last();
        await card.getByLabel('Beats a minute').fill(beats);
        await card.getByLabel('Beats a minute').press('Enter');
        await card.getByLabel('Date').fill(date);
        await card.getByLabel('Date').press('Enter');
        await trouble(page).getByText(`Record of ${date}`).waitFor();
      }
      await trouble(page).locator('.record-figure').waitFor();
      await picture(page, 'trouble-records');
      await assertAccessible(page, 'two records');
      await trouble(page).getByRole('button', { name: 'What is wrong' }).click();
      await eventually(async () =>
        assert.equal(await trouble(page).getByText('There is no record of this ram').count(), 0),
      );
      await trouble(page).getByRole('button', { name: 'Close' }).click();
      const saved = JSON.parse(await savedPlan(page));
      assert.deepEqual(
        saved.rillwright.records.map(({ date, beats_per_min }) => [date, beats_per_min]),
        [
          ['2026-05-14', 58],
          ['2026-09-30', 55],
        ],
      );
    },
  },

  'a remedy that changes the plan is one step, with the answer before and after': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page).getByRole('radio', { name: 'It stands, waste valve open, and pours' }).check();
      await trouble(page).getByLabel('Water at the drive pipe’s inlet').fill('0.9 m');
      await trouble(page).getByLabel('Water at the drive pipe’s inlet').press('Enter');
      await eventually(async () => assert.equal(await firstCause(page).getAttribute('data-cause'), 'level-sunk'));
      await firstCause(page)
        .getByRole('button', { name: /take a fifth less/ })
        .click();
      await trouble(page)
        .getByText(/Done, as one step of the plan\. Before: .* Now: \d/)
        .waitFor();
      await trouble(page).getByRole('button', { name: 'Close' }).click();
      await page.getByRole('button', { name: 'Undo', exact: true }).click();
      assert.equal(await page.getByRole('button', { name: 'Undo', exact: true }).isEnabled(), false);
    },
  },

  'the beat of the chosen pump is simulated under its panel, with its moments named': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await showPanel(page, 'Inputs');
      const simulate = page.getByRole('button', { name: 'Simulate three beats' });
      if (!(await simulate.isVisible())) await page.getByText('The pump', { exact: true }).first().click();
      await simulate.click();
      await page.locator('.beat-figure').waitFor();
      assert.equal(await page.locator('.moments li').count(), 4);
      await page.locator('.beat-figure').scrollIntoViewIfNeeded();
      await picture(page, 'beat');
      await assertAccessible(page, 'the simulated beat');
    },
  },

  'in dark colours and US units on a telephone too': {
    options: { ...onTelephone, colorScheme: 'dark' },
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await page.getByText('Menu', { exact: true }).tap();
      await page.getByRole('button', { name: 'US', exact: true }).tap();
      const entry = page.getByRole('button', { name: 'Something is wrong…' });
      if (!(await entry.isVisible())) await page.getByText('Menu', { exact: true }).tap();
      await entry.tap();
      await trouble(page).waitFor();
      await trouble(page).getByText('It runs, but brings too little').tap();
      await trouble(page).getByLabel('Waste water').fill('3 gal/min');
      await trouble(page).getByLabel('Gauge, running').fill('40 psi');
      await trouble(page).getByLabel('Gauge, at rest').tap();
      await firstCause(page).locator('svg').waitFor();
      await assertAccessible(page, 'a throttled line, in dark colours');
      await firstCause(page).scrollIntoViewIfNeeded();
      await picture(page, 'trouble-dark');
      await trouble(page).getByRole('button', { name: 'Records', exact: true }).tap();
      await trouble(page).getByRole('button', { name: 'New record' }).tap();
      await assertAccessible(page, 'a record, in dark colours');
      await picture(page, 'records-dark');
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(wide <= telephone.width, `found a page ${wide} px wide`);
    },
  },

  'the sheets for the pump are printed with what was found': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      await openTrouble(page);
      await trouble(page).getByRole('radio', { name: 'It stands, waste valve shut' }).check();
      await firstCause(page).waitFor();
      await trouble(page).getByRole('button', { name: 'Close' }).click();
      await page.getByText('Import, export, print', { exact: true }).click();
      await page.getByRole('button', { name: 'Print the sheets for the pump' }).click();
      const sheet = page.getByRole('dialog', { name: 'Sheets for the pump' });
      await sheet.getByRole('heading', { name: 'Drain and frost list' }).waitFor();
      assert.ok((await sheet.locator('[data-id^="tuning-"]').count()) > 0, 'found no row of the tuning card');
      await assertAccessible(page, 'the sheets for the pump');
      if (process.env.PICTURES_TO) {
        await sheet.locator('article').screenshot({ path: `${process.env.PICTURES_TO}/pump-sheets.png` });
      }
      await sheet.getByRole('button', { name: 'Close' }).click();
    },
  },

  'it works without a network once it was opened': {
    options: calm,
    run: async ({ page, context, origin }) => {
      await openDemo(page, origin);
      await page.evaluate(async () => {
        const { serviceWorker } = navigator;
        await serviceWorker.ready;
        if (serviceWorker.controller !== null) return;
        await new Promise((resolve) => serviceWorker.addEventListener('controllerchange', resolve, { once: true }));
      });
      await context.setOffline(true);
      await page.reload();
      await page.locator('.plan-verdict[data-busy="false"]').waitFor();
      await openTrouble(page);
      await trouble(page).getByRole('radio', { name: 'It stands, waste valve shut' }).check();
      await firstCause(page).waitFor();
    },
  },
};
