/** Whether this machine keeps the low byte first. */
export const MACHINE_IS_LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

/** Turns the bytes of each value round, in place. */
export function swapBytes(bytes: Uint8Array, width: number): void {
  if (width === 2) {
    swapPairs(bytes);
    return;
  }
  for (let i = 0; i + width <= bytes.length; i += width) {
    for (let low = i, high = i + width - 1; low < high; low++, high--) {
      const kept = bytes[low] as number;
      bytes[low] = bytes[high] as number;
      bytes[high] = kept;
    }
  }
}

function swapPairs(bytes: Uint8Array): void {
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    const kept = bytes[i] as number;
    bytes[i] = bytes[i + 1] as number;
    bytes[i + 1] = kept;
  }
}
