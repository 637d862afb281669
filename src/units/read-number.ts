/** A number as somebody wrote it, or why it cannot be taken as one. */
export type NumberReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly code: 'not-a-number' }
  | {
      readonly ok: false;
      readonly code: 'ambiguous-number';
      /** The two numbers that may be meant, thousands first, without a comma. */
      readonly readings: readonly [string, string];
    };

/** What a lone comma before exactly three digits is: thousands where the writer's habit is known, else to be asked. */
export type LoneComma = 'thousands' | 'asked';

const NOT_A_NUMBER: NumberReading = { ok: false, code: 'not-a-number' };

const MIXED = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/;
const SPACED = /^\d{1,3}(?: \d{3})+(?:[.,]\d+)?$/;
const PLAIN = /^([\d.,]+)(e[+-]?\d+)?$/;
const COMMA_GROUPS = /^\d{1,3}(?:,\d{3})+$/;
const POINT_GROUPS = /^\d{1,3}(?:\.\d{3})+$/;
const AMBIGUOUS = /^[1-9]\d{0,2},\d{3}$/;

/**
 * Reads a number with a comma or a point as its decimal mark, with grouped thousands, or as a fraction such as 1-1/4.
 *
 * A lone comma before exactly three digits may mark thousands or decimals: unless the habit of the writer is known, both
 * readings come back to be asked about. A lone point is always a decimal mark.
 */
export function readNumber(text: string, loneComma: LoneComma = 'asked'): NumberReading {
  const sign = text.startsWith('-') ? -1 : 1;
  const digits = text.replace(/^[+-]\s*/, '');
  const mixed = MIXED.exec(digits);
  if (mixed) return signed(sign, Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3]));
  if (SPACED.test(digits)) return signed(sign, Number(digits.replace(/ /g, '').replace(',', '.')));
  const plain = PLAIN.exec(digits);
  if (!plain?.[1]) return NOT_A_NUMBER;
  if (AMBIGUOUS.test(plain[1])) {
    if (loneComma === 'asked') return ambiguous(text, plain[1]);
    return signed(sign, Number(plain[1].replace(',', '') + (plain[2] ?? '')));
  }
  return signed(sign, Number(decimalPoint(plain[1]) + (plain[2] ?? '')));
}

function signed(sign: number, value: number): NumberReading {
  return Number.isFinite(value) ? { ok: true, value: sign * value } : NOT_A_NUMBER;
}

function ambiguous(text: string, digits: string): NumberReading {
  const thousands = text.replace(digits, digits.replace(',', ''));
  const decimals = text.replace(digits, digits.replace(',', '.'));
  return { ok: false, code: 'ambiguous-number', readings: [thousands, decimals] };
}

/** Rewrites digits so that the only mark left is a decimal point; digits grouped wrongly become no number. */
function decimalPoint(digits: string): string {
  const comma = digits.lastIndexOf(',');
  const point = digits.lastIndexOf('.');
  if (comma < 0 && point === digits.indexOf('.')) return digits;
  if (point < 0 && comma === digits.indexOf(',')) return digits.replace(',', '.');
  const mark = Math.max(comma, point);
  const whole = comma >= 0 && point >= 0 ? digits.slice(0, mark) : digits;
  const groups = comma > point && point >= 0 ? POINT_GROUPS : comma < 0 ? POINT_GROUPS : COMMA_GROUPS;
  if (!groups.test(whole)) return 'wrongly grouped';
  const fraction = whole === digits ? '' : `.${digits.slice(mark + 1)}`;
  return whole.replace(/[.,]/g, '') + fraction;
}
