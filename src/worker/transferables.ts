/** The buffers and pictures of an answer that can move to the page instead of being copied. */
export function transferables(answer: unknown): Transferable[] {
  const found = new Set<Transferable>();
  collect(answer, found);
  return [...found];
}

function collect(value: unknown, found: Set<Transferable>): void {
  if (typeof value !== 'object' || value === null) return;
  if (typeof ImageBitmap !== 'undefined' && value instanceof ImageBitmap) {
    found.add(value);
  } else if (value instanceof ArrayBuffer) {
    found.add(value);
  } else if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) found.add(value.buffer);
  } else if (!Array.isArray(value)) {
    for (const part of Object.values(value)) collect(part, found);
  }
}
