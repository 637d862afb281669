/** The number at an index of an array; an index outside it is a wrong program, never a 0. */
export function valueAt(values: ArrayLike<number>, index: number): number {
  const value = values[index];
  if (value === undefined) throw new Error(`index: found ${index}, expected one of ${values.length} from 0`);
  return value;
}
