import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { demoPlan } from './steps/command-line.mjs';
import { eventually } from './steps/eventually.mjs';
import { lengthOf, metresBetween, mix, placeAlong } from './steps/ground.mjs';
import { mapAtRest, pixelOf, pointAt, viewOf, zoomIn } from './steps/map.mjs';
import { calm, courseItem, openDemo } from './steps/planner.mjs';

const plan = JSON.parse(await readFile(demoPlan, 'utf8'));
const routes = Object.fromEntries(
  plan.features.map(({ properties, geometry }) => [properties.name, geometry.coordinates]),
);
const knoll = routes['Delivery over the knoll'];

/** What the profile reads: the route and the distance along it, m; null while it reads nothing. */
async function reading(page) {
  const text = await page.locator('.profile-reading').textContent();
  const [, route, along] = /^(.+), ([\d.]+)\u202fm along/.exec(text) ?? [];
  return route === undefined ? null : { route, along: Number(along) };
}

/** What the map shows in a small square around a place, as a picture. */
async function look(page, place) {
  await mapAtRest(page);
  const { x, y } = pixelOf(await viewOf(page), place);
  return page.screenshot({ clip: { x: Math.round(x) - 10, y: Math.round(y) - 10, width: 20, height: 20 } });
}

/** The page with the demo enlarged, and the pointer beside the map. */
async function enlarged(page, origin) {
  await openDemo(page, origin);
  await zoomIn(page, 16);
  await page.mouse.move(5, 5);
}

/** The map shows a mark where the profile is read, and shows it no longer once the reading is elsewhere. */
async function assertMarked(page, { goThere, goAway }) {
  await goThere();
  const there = await eventually(async () => {
    const found = await reading(page);
    assert.ok(found !== null);
    return found;
  });
  const place = placeAlong(routes[there.route], there.along);
  const marked = await look(page, place);
  await goAway();
  await eventually(async () => assert.ok(!(await look(page, place)).equals(marked), 'the mark stays where it was'));
  const bare = await look(page, place);
  await goThere();
  await eventually(async () => assert.ok((await look(page, place)).equals(marked), 'the mark does not come back'));
  return { there, bare, marked };
}

export const cases = {
  'the pointer over a line on the map reads the profile at that place': {
    options: calm,
    run: async ({ page, origin }) => {
      await enlarged(page, origin);
      const place = mix(knoll[0], knoll[1], 0.6);
      await pointAt(page, place);
      const expected = 0.6 * metresBetween(knoll[0], knoll[1]);
      const pixel = 40_075_017 / 512 / 2 ** (await viewOf(page)).zoom;
      await eventually(async () => {
        const found = await reading(page);
        assert.equal(found?.route, 'Delivery over the knoll');
        assert.ok(Math.abs(found.along - expected) < pixel, `found ${found.along}, expected ${expected} to ${pixel}`);
      });
      await page.mouse.move(5, 5);
      await eventually(async () => assert.equal(await reading(page), null));
    },
  },

  'the pointer in the profile marks the place on the map': {
    options: calm,
    run: async ({ page, origin }) => {
      await enlarged(page, origin);
      const box = await page.locator('.profile-place').boundingBox();
      const at = (share) => page.mouse.move(box.x + box.width * share, box.y + box.height / 2, { steps: 2 });
      const { there } = await assertMarked(page, { goThere: () => at(0.45), goAway: () => at(0.3) });
      assert.equal(there.route, 'Delivery over the knoll');
      await page.mouse.move(5, 5);
      await eventually(async () => assert.equal(await reading(page), null));
    },
  },

  'the arrow keys walk along the profile and mark the place on the map': {
    options: calm,
    run: async ({ page, origin }) => {
      await enlarged(page, origin);
      const slider = page.getByRole('slider', { name: 'Place along the profile' });
      const whole = ['Supply line', 'Drive pipe', 'Delivery over the knoll'].reduce(
        (sum, r) => sum + lengthOf(routes[r]),
        0,
      );
      await slider.focus();
      await page.keyboard.press('Home');
      await eventually(async () => assert.deepEqual(await reading(page), { route: 'Supply line', along: 0 }));
      await page.keyboard.press('End');
      await eventually(async () => {
        const { route, along } = await reading(page);
        assert.equal(route, 'Delivery over the knoll');
        assert.ok(Math.abs(along - lengthOf(knoll)) < 0.06, `found ${along}`);
        assert.ok(Math.abs(Number(await slider.getAttribute('aria-valuenow')) - whole) <= 0.51);
      });
      await page.keyboard.press('Home');
      const steps = async (key, count) => {
        for (let step = 0; step < count; step += 1) await page.keyboard.press(key);
      };
      await steps('Shift+ArrowRight', 9);
      await eventually(async () => {
        const { along } = await reading(page);
        const expected = (90 / 200) * whole - lengthOf(routes['Supply line']) - lengthOf(routes['Drive pipe']);
        assert.ok(Math.abs(along - expected) < 0.06, `found ${along}, expected ${expected}`);
      });
      await steps('ArrowLeft', 10);
      await assertMarked(page, { goThere: () => steps('ArrowRight', 5), goAway: () => steps('ArrowLeft', 5) });
    },
  },

  'choosing a tank from the keyboard shows the way of its water in the profile': {
    options: calm,
    run: async ({ page, origin }) => {
      await openDemo(page, origin);
      for (const tank of ['Spur tank', 'Tank behind the knoll']) {
        await courseItem(page, tank).focus();
        await page.keyboard.press('Enter');
        await eventually(async () => {
          const shown = page.getByLabel('Profile of').locator('option:checked');
          assert.match(await shown.textContent(), new RegExp(`${tank}$`));
          assert.ok((await page.locator('.profile-place').textContent()).includes(tank));
        });
      }
    },
  },
};
