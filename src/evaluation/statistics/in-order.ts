import { valueAt } from '../../units/value-at.ts';

/**
 * The value that would stand at a place of a column if it were sorted. The column is moved about so that nothing before the place is
 * greater and nothing behind it smaller; `from` may be the place that was asked for before, if that was further to the front.
 *
 * Source: C. A. R. Hoare, Algorithm 65: FIND, Communications of the ACM 4, 1961.
 */
export function valueInOrder(column: Float64Array, place: number, from = 0): number {
  let [left, right] = [from, column.length - 1];
  while (left < right) {
    const pivot = middleOf(valueAt(column, left), valueAt(column, (left + right) >> 1), valueAt(column, right));
    let [i, j] = [left, right];
    while (i <= j) {
      // Outside the column nothing compares, and both walks end: the pivot is one of its values.
      let low = column[i] ?? Number.NaN;
      while (low < pivot) low = column[++i] ?? Number.NaN;
      let high = column[j] ?? Number.NaN;
      while (high > pivot) high = column[--j] ?? Number.NaN;
      if (i > j) break;
      column[i++] = high;
      column[j--] = low;
    }
    if (j < place) left = i;
    if (place < i) right = j;
  }
  return valueAt(column, place);
}

function middleOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
