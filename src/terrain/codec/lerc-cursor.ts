import { refuse } from '../bytes/file-refusal.ts';

/** Kinds of numbers in a LERC blob by their code. Source: Esri, LERC specification (github.com/Esri/lerc), Lerc2. */
export const LERC_TYPES = ['int8', 'uint8', 'int16', 'uint16', 'int32', 'uint32', 'float32', 'float64'] as const;
export type LercType = (typeof LERC_TYPES)[number];

/** Reads a LERC blob from front to back; everything in it is little-endian. */
export class LercCursor {
  readonly bytes: Uint8Array;
  at: number;
  readonly #view: DataView;

  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes;
    this.at = at;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  byte(): number {
    return this.#view.getUint8(this.#step(1));
  }

  int16(): number {
    return this.#view.getInt16(this.#step(2), true);
  }

  uint16(): number {
    return this.#view.getUint16(this.#step(2), true);
  }

  int32(): number {
    return this.#view.getInt32(this.#step(4), true);
  }

  uint32(): number {
    return this.#view.getUint32(this.#step(4), true);
  }

  float64(): number {
    return this.#view.getFloat64(this.#step(8), true);
  }

  run(length: number): Uint8Array {
    const from = this.#step(length);
    return this.bytes.subarray(from, from + length);
  }

  number(type: LercType): number {
    switch (type) {
      case 'int8':
        return this.#view.getInt8(this.#step(1));
      case 'uint8':
        return this.byte();
      case 'int16':
        return this.int16();
      case 'uint16':
        return this.uint16();
      case 'int32':
        return this.int32();
      case 'uint32':
        return this.uint32();
      case 'float32':
        return this.#view.getFloat32(this.#step(4), true);
      case 'float64':
        return this.float64();
    }
  }

  #step(length: number): number {
    const from = this.at;
    if (from + length > this.bytes.length) failLerc('a blob that stops early', `${length} more bytes`);
    this.at = from + length;
    return from;
  }
}

export function failLerc(found: string, expected: string): never {
  return refuse({ code: 'broken-block', where: 'LERC', found, expected });
}
