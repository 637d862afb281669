// Made ground that keeps its roughness at every scale, the same every time: a field whose power falls with the wave number as
// k^−(2H + 2), H the Hurst exponent (B. B. Mandelbrot and J. W. Van Ness, SIAM Review 10(4), 1968; spectral synthesis after
// D. Saupe in The Science of Fractal Images, 1988, from memory). `valleys` folds it at its middle height into sharp valleys.

/** Heights of `side` × `side` cells of 1 m; side is a power of two. Twice the side is made, so that nothing repeats. */
export function madeGround({ side, hurst, relief, seed, valleys = false }) {
  const n = 2 * side;
  const random = seeded(seed);
  const re = new Float64Array(n * n);
  const im = new Float64Array(n * n);
  for (let i = 0; i < re.length; i++) {
    re[i] = normal(random);
    im[i] = normal(random);
  }
  for (let r = 0; r < n; r++) {
    for (let c = 0; c < n; c++) {
      const k = Math.hypot(Math.min(r, n - r), Math.min(c, n - c));
      const size = k === 0 ? 0 : k ** -(hurst + 1);
      re[r * n + c] *= size;
      im[r * n + c] *= size;
    }
  }
  transform(re, im, n);
  const heights = new Float64Array(side * side);
  for (let r = 0; r < side; r++) for (let c = 0; c < side; c++) heights[r * side + c] = re[r * n + c];
  if (valleys) fold(heights);
  return scaled(heights, relief);
}

function fold(heights) {
  const middle = heights.toSorted()[heights.length >> 1];
  for (const [i, z] of heights.entries()) heights[i] = Math.abs(z - middle);
}

/** Relief is the height between the lowest and the highest hundredth. */
function scaled(heights, relief) {
  const sorted = heights.toSorted();
  const low = sorted[Math.floor(0.01 * sorted.length)];
  const high = sorted[Math.floor(0.99 * sorted.length)];
  return heights.map((z) => 300 + ((z - low) / (high - low)) * relief);
}

/** Two-dimensional fast Fourier transform, rows then columns. J. W. Cooley and J. W. Tukey 1965. */
function transform(re, im, n) {
  for (let r = 0; r < n; r++) transformRun(re, im, { from: r * n, step: 1, n });
  for (let c = 0; c < n; c++) transformRun(re, im, { from: c, step: n, n });
}

function transformRun(re, im, { from, step, n }) {
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      const [p, q] = [from + i * step, from + j * step];
      [re[p], re[q]] = [re[q], re[p]];
      [im[p], im[q]] = [im[q], im[p]];
    }
  }
  for (let size = 2; size <= n; size *= 2) {
    const angle = (2 * Math.PI) / size;
    for (let k = 0; k < size / 2; k++) {
      const [wr, wi] = [Math.cos(angle * k), Math.sin(angle * k)];
      for (let start = k; start < n; start += size) {
        const p = from + start * step;
        const q = p + (size / 2) * step;
        const tr = re[q] * wr - im[q] * wi;
        const ti = re[q] * wi + im[q] * wr;
        re[q] = re[p] - tr;
        im[q] = im[p] - ti;
        re[p] += tr;
        im[p] += ti;
      }
    }
  }
}

/** Mulberry32: a small seeded generator. */
export function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Box and Muller 1958. */
export const normal = (random) => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
