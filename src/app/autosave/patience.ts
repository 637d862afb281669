/** A store that has not answered for so long counts as one that does not, ms. */
const PATIENCE_MS = 4500;

/** What is promised, or an error when it takes too long: a store of the browser can hang for good. */
export async function withinPatience<T>(promised: Promise<T>): Promise<T> {
  let clock: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    clock = setTimeout(() => reject(new Error('the browser’s store does not answer')), PATIENCE_MS);
  });
  try {
    return await Promise.race([promised, late]);
  } finally {
    clearTimeout(clock);
  }
}
