import assert from 'node:assert/strict';

/** Every number of the answers: `fall`, `tank-spur lift` and so on, each with its value in SI and the words shown. */
export function answerNumbers(page) {
  return page.locator('.answer').evaluate((answer) => {
    const numbers = {};
    for (const element of answer.querySelectorAll('[data-field]')) {
      const row = element.closest('[data-tank], [data-trough]');
      const about = row?.dataset.tank ?? row?.dataset.trough;
      const { field, value } = element.dataset;
      const shown = element.querySelector('.likely')?.textContent ?? element.textContent;
      numbers[about === undefined ? field : `${about} ${field}`] = {
        value: value === '' ? null : Number(value),
        shown,
      };
    }
    return numbers;
  });
}

/** One number of whatever panel is open, in SI. */
export async function numberOf(scope, field) {
  const value = await scope.locator(`[data-field="${field}"]`).getAttribute('data-value');
  assert.ok(value !== null && value !== '', `${field}: found no number, expected one`);
  return Number(value);
}

/** The verdict word that stands beside each tank. */
export function tankVerdicts(page) {
  return page
    .locator('tr[data-tank]')
    .evaluateAll((rows) =>
      Object.fromEntries(
        rows.map((row) => [row.dataset.tank, row.querySelector('.verdict-word')?.textContent ?? null]),
      ),
    );
}

/** Holds a shown number, such as `2150 L/day`, against one in the same unit: the same to the digits that are shown. */
export function assertShown(shown, { expected, unit, about }) {
  const [, sign, digits, label] = /^(−?)([\d.\u202f]+)\u202f(.+)$/.exec(shown) ?? [];
  assert.ok(digits !== undefined, `${about}: found “${shown}”, expected a number with its unit`);
  assert.equal(label, unit, about);
  const plain = digits.replaceAll('\u202f', '');
  const off = Math.abs(Number(plain) * (sign === '' ? 1 : -1) - expected);
  assert.ok(off <= 0.500001 * lastDigit(plain), `${about}: the page shows ${shown}, expected ${expected}`);
}

/** The unit that is shown and its share of the SI unit. */
const heights = { unit: 'm', perSi: 1 };
const flows = { unit: 'L/min', perSi: 60_000 };
const volumes = { unit: 'L/day', perSi: 1000 };

/** Positions in a saved plan are rounded to about a millimetre, and slopes and falls carry that on; as a share. */
const rounding = 5e-4;

/** Holds the numbers of the page against the answer of the command line about the same plan. */
export function assertAnswer(numbers, { pump, tanks, troughs }) {
  const rows = [
    ['fall', pump.fall_m, heights],
    ['fall-at-rest', pump.fall_at_rest_range_m, heights],
    ['drive-flow', pump.drive_flow_L_per_min, flows],
    ['supply-limit', pump.supply_limit_range_L_per_min, flows],
    ...tanks.flatMap(({ id, lift_m, governing_lift_m, delivery_L_per_day }) => [
      [`${id} lift`, lift_m, heights],
      [`${id} governing-lift`, governing_lift_m, heights],
      [`${id} delivery-per-day`, delivery_L_per_day, volumes],
    ]),
    ...troughs.map(({ id, flow_L_per_min }) => [`${id} flow`, flow_L_per_min, flows]),
  ];
  for (const [about, { likely }, { unit, perSi }] of rows) {
    const { value, shown } = numbers[about] ?? {};
    assertShown(shown, { expected: value * perSi, unit, about });
    const off = Math.abs(value * perSi - likely);
    assert.ok(off <= rounding * likely, `${about}: the page has ${value * perSi} ${unit}, expected ${likely}`);
  }
}

/** What one step of the last digit that counts is worth; whole numbers are shown to three figures. */
function lastDigit(plain) {
  const [whole, fraction] = plain.split('.');
  if (fraction !== undefined) return 10 ** -fraction.length;
  return 10 ** Math.max(0, whole.length - 3);
}
