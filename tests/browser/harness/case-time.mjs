/**
 * A whole case that takes longer than this is stuck, ms. Nothing inside a case looks at a clock: a wait ends when the page
 * shows what is waited for, or with its case. `--testTimeout 60000` sets another limit while one looks for a fault.
 */
export const longestCase_ms = 600_000;
/** What a case that was stopped may take to its end, ms: its picture, and the wait that it hung on. */
export const longestEnd_ms = 60_000;

let limit = new AbortController().signal;

/** Ends with the case that runs in this worker; where no case runs, never. */
export function endOfCase() {
  return limit;
}

/** Runs a case to its end or its limit. When the limit comes first, it is stopped and says what it was waiting for. */
export async function withinLimit(limit_ms, run, stop) {
  const ending = new AbortController();
  limit = ending.signal;
  let late = false;
  const timer = setTimeout(async () => {
    late = true;
    ending.abort();
    await stop();
  }, limit_ms);
  try {
    return await run();
  } catch (error) {
    if (!late) throw error;
    throw new Error(`still running after ${limit_ms / 1000} s; it was waiting here:\n${error.stack ?? error}`);
  } finally {
    clearTimeout(timer);
    ending.abort();
  }
}
