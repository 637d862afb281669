/**
 * Units of the plan file against SI, as one exact step each way.
 *
 * A number in the file becomes SI by one division (or multiplication) with a whole number; writing looks for the file
 * number that reads back to exactly the same SI value, so a figure somebody typed comes back digit for digit.
 */
export interface Scale {
  fromFile(file: number): number;
  toFile(si: number): number;
}

const pieces = new DataView(new ArrayBuffer(8));

function neighbour(value: number, steps: bigint): number {
  pieces.setFloat64(0, value);
  pieces.setBigInt64(0, pieces.getBigInt64(0) + steps);
  return pieces.getFloat64(0);
}

/** The file number nearest to `guess` that reads back as `si`; `guess` itself where no double does. */
function findExact(si: number, guess: number, fromFile: (file: number) => number): number {
  for (const digits of [15, 16]) {
    const short = Number(guess.toPrecision(digits));
    if (fromFile(short) === si) return short;
  }
  for (const steps of [0n, 1n, -1n, 2n, -2n]) {
    const near = neighbour(guess, steps);
    if (fromFile(near) === si) return near;
  }
  return guess;
}

function scale(fromFile: (file: number) => number, guess: (si: number) => number): Scale {
  return {
    fromFile: (file) => fromFile(file) + 0,
    toFile: (si) => (si === 0 ? 0 : findExact(si, guess(si), fromFile)),
  };
}

function divided(perSi: number): Scale {
  return scale(
    (file) => file / perSi,
    (si) => si * perSi,
  );
}

/** The file's unit is the SI unit; a negative zero becomes zero. */
export const asIs: Scale = scale(
  (file) => file,
  (si) => si,
);
/** mm in the file, m inside. */
export const millimetres: Scale = divided(1000);
/** L in the file, m³ inside; also L a day against m³ a day. */
export const litres: Scale = divided(1000);
/** L/min in the file, m³/s inside. */
export const litresPerMinute: Scale = divided(60_000);
/** kPa in the file, Pa inside. */
export const kilopascals: Scale = scale(
  (file) => file * 1000,
  (si) => si / 1000,
);

/** A value that may be unknown. */
export function orNull<A, B>(convert: (value: A) => B): (value: A | null) => B | null {
  return (value) => (value === null ? null : convert(value));
}
