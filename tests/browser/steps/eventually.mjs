import { setTimeout as pause } from 'node:timers/promises';

/** How long something may take before it counts as not happening, ms; and the rest between two looks. */
const longest_ms = 30_000;
const rest_ms = 20;

/** Looks again and again until a check passes and gives its answer; after that its last failure counts. */
export async function eventually(check) {
  const end = Date.now() + longest_ms;
  for (;;) {
    try {
      return await check();
    } catch (error) {
      if (Date.now() > end) throw error;
    }
    await pause(rest_ms);
  }
}
