import type { Price } from '../../plan/model/plan.ts';
import { FOOT_M } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { readNumber } from '../../units/read-number.ts';
import { writeGrouped } from '../../units/write-quantity.ts';

const CENTS = 2;
/** Digits of a price that is typed: a foot of small pipe costs fractions of a coin. */
const PRICE_DIGITS = 4;

/** A sum of money in the user's own currency, to the hundredth. */
export function moneyWords(amount: number, currency: string, units: UnitSystem): string {
  const sum = writeGrouped(amount, CENTS, units);
  if (units === 'us' && currency === '$') return sum.startsWith('−') ? `−$${sum.slice(1)}` : `$${sum}`;
  return `${sum}${currency === '' ? '' : ` ${currency}`}`;
}

/** What a price is for. */
export type PricedBy = 'length' | 'piece';

/** A price as it is typed: of a metre or a foot for lengths, of one for pieces. */
export function writePrice(price: number, by: PricedBy, units: UnitSystem): string {
  const shown = price * perShown(by, units);
  return Number.isInteger(shown) ? String(shown) : String(Number(shown.toFixed(PRICE_DIGITS)));
}

export type PriceReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly sentence: string };

/** Reads a price, in what a metre or a piece costs. */
export function readPrice(text: string, by: PricedBy, units: UnitSystem): PriceReading {
  const number = readNumber(text.trim().replace(/^\$\s*/, ''), units === 'us' ? 'thousands' : 'asked');
  if (number.ok && number.value >= 0) return { ok: true, value: number.value / perShown(by, units) };
  return { ok: false, sentence: `“${text}” is not a price. Type a plain number such as 1.85.` };
}

/** The word after “a” in “a price of …”. */
export function pricedUnit(by: PricedBy, units: UnitSystem): string {
  if (by === 'piece') return 'piece';
  return units === 'us' ? 'foot' : 'metre';
}

function perShown(by: PricedBy, units: UnitSystem): number {
  return by === 'length' && units === 'us' ? FOOT_M : 1;
}

/** A price for another unit, with the figure as it was typed. */
export function pricedAnew(price: Price, by: PricedBy, units: UnitSystem): Price {
  const before = price.unit === 'piece' ? 'piece' : 'length';
  const typed = price.price * perShown(before, units);
  return { ...price, unit: by === 'piece' ? 'piece' : 'metre', price: typed / perShown(by, units) };
}
