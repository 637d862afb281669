/**
 * Undoes the predictors of TIFF on the bytes of a block, in place.
 *
 * The block's rows hold `columns` cells of `samples` interleaved values. Sources: TIFF 6.0, Adobe, 1992, section 14;
 * TIFF Technical Note 3, Adobe, 2005 (floating point).
 */
export interface BlockShape {
  readonly columns: number;
  readonly rows: number;
  readonly samples: number;
  readonly bits: number;
}

/** Horizontal differences of whole values, already in the machine's byte order. */
export function undoDifferences(bytes: Uint8Array, shape: BlockShape): void {
  const row = shape.columns * shape.samples;
  if (shape.bits === 8) addAlong(bytes, row, shape);
  else if (shape.bits === 16) addAlong(new Uint16Array(bytes.buffer, bytes.byteOffset, row * shape.rows), row, shape);
  else if (shape.bits === 32) addAlong(new Uint32Array(bytes.buffer, bytes.byteOffset, row * shape.rows), row, shape);
  else addWideAlong(new BigUint64Array(bytes.buffer, bytes.byteOffset, row * shape.rows), row, shape);
}

function addAlong(values: Uint8Array | Uint16Array | Uint32Array, row: number, shape: BlockShape): void {
  for (let y = 0; y < shape.rows; y++) {
    const end = (y + 1) * row;
    for (let i = y * row + shape.samples; i < end; i++) {
      values[i] = (values[i] as number) + (values[i - shape.samples] as number);
    }
  }
}

function addWideAlong(values: BigUint64Array, row: number, shape: BlockShape): void {
  for (let y = 0; y < shape.rows; y++) {
    const end = (y + 1) * row;
    for (let i = y * row + shape.samples; i < end; i++) {
      values[i] = (values[i] as bigint) + (values[i - shape.samples] as bigint);
    }
  }
}

/**
 * Floating-point predictor: byte differences over the row, then the bytes of one rank of significance side by side,
 * most significant first whatever the file's byte order. Answers values in little-endian byte order.
 */
export function undoFloatPredictor(bytes: Uint8Array, shape: BlockShape): Uint8Array {
  const width = shape.bits / 8;
  const values = shape.columns * shape.samples;
  const row = values * width;
  const out = new Uint8Array(bytes.length);
  for (let y = 0; y < shape.rows; y++) {
    const start = y * row;
    for (let i = start + shape.samples; i < start + row; i++) {
      bytes[i] = (bytes[i] as number) + (bytes[i - shape.samples] as number);
    }
    for (let rank = 0; rank < width; rank++) {
      const from = start + rank * values;
      const to = start + (width - 1 - rank);
      for (let i = 0; i < values; i++) out[to + i * width] = bytes[from + i] as number;
    }
  }
  return out;
}
