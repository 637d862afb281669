const DAY_MS = 24 * 60 * 60 * 1000;

/** When something was kept: the time of day, with the date unless it was in the last 24 hours. */
export function whenWords(at: number, now: number): string {
  const then = new Date(at);
  const time = `${two(then.getHours())}:${two(then.getMinutes())}`;
  if (now - at < DAY_MS) return time;
  return `${then.getFullYear()}-${two(then.getMonth() + 1)}-${two(then.getDate())}, ${time}`;
}

function two(number: number): string {
  return String(number).padStart(2, '0');
}
