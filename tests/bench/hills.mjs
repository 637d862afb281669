// Made ground for benchmarks: rolling hills with bumps of every size, the same every time.

/** Value noise in octaves from 500 m to 4 m, each half as high as the one before: 60 m from hollow to hill. */
export function hills(side) {
  const heights = new Float64Array(side * side);
  const random = seeded(7);
  for (let size = 500, height = 30; size >= 4; size /= 2, height /= 2) {
    const n = Math.ceil(side / size) + 2;
    const knots = Float64Array.from({ length: n * n }, random);
    for (let row = 0; row < side; row++) {
      for (let column = 0; column < side; column++) {
        const [c, t] = smooth(column / size);
        const [r, s] = smooth(row / size);
        const at = r * n + c;
        const top = knots[at] * (1 - t) + knots[at + 1] * t;
        const bottom = knots[at + n] * (1 - t) + knots[at + n + 1] * t;
        heights[row * side + column] += height * (top * (1 - s) + bottom * s);
      }
    }
  }
  const cell = { eastPerColumn: 1, northPerColumn: 0, eastPerRow: 0, northPerRow: -1 };
  return { columns: side, rows: side, heights, known: new Uint8Array(side * side).fill(1), cell };
}

function smooth(x) {
  const whole = Math.floor(x);
  const t = x - whole;
  return [whole, t * t * (3 - 2 * t)];
}

function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
