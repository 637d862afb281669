import { setTimeout as pause } from 'node:timers/promises';
import { endOfCase } from '../harness/case-time.mjs';

/** The rest between two looks, ms. */
const rest_ms = 20;

/** Looks again and again until a check passes and gives its answer; at the end of the case its last failure counts. */
export async function eventually(check) {
  const end = endOfCase();
  for (;;) {
    try {
      return await check();
    } catch (error) {
      if (end.aborted) throw error;
    }
    await pause(rest_ms);
  }
}
