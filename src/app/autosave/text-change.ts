/** Lines from a place on are taken out and others put in; places are those of the text before. */
export type LineChange = readonly [at: number, taken: number, put: readonly string[]];

/** What leads from one text to another, from its start to its end. */
export type TextChange = readonly LineChange[];

/** Lines that are alike between two changes; fewer are put into one change. */
const LEAST_ALIKE = 2;

/** What leads from one text to another. It is short where little differs, and never wrong: at worst it holds the new text. */
export function changeBetween(before: string, after: string): TextChange {
  if (before === after) return [];
  const [a, b] = [before.split('\n'), after.split('\n')];
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a.at(-1 - end) === b.at(-1 - end)) end++;
  const [stopA, stopB] = [a.length - end, b.length - end];
  if (stopA !== stopB) return [[start, stopA - start, b.slice(start, stopB)]];
  return runsOfChange(a, b, { start, stop: stopA });
}

/** Texts of equally many lines differ in runs of lines, such as a point and the ends of its lines. */
function runsOfChange(
  a: readonly string[],
  b: readonly string[],
  { start, stop }: { readonly start: number; readonly stop: number },
): TextChange {
  const runs: LineChange[] = [];
  for (let at = start; at < stop; at++) {
    if (a[at] === b[at]) continue;
    let [end, alike] = [at + 1, 0];
    for (let look = end; look < stop && alike < LEAST_ALIKE; look++) {
      alike = a[look] === b[look] ? alike + 1 : 0;
      if (alike === 0) end = look + 1;
    }
    runs.push([at, end - at, b.slice(at, end)]);
    at = end - 1;
  }
  return runs;
}

/** The text that a change leads to; null where it does not fit the text before. */
export function changed(before: string, change: TextChange): string | null {
  const lines = before.split('\n');
  const parts: string[] = [];
  let done = 0;
  for (const [at, taken, put] of change) {
    if (at < done || at + taken > lines.length) return null;
    for (const line of lines.slice(done, at)) parts.push(line);
    for (const line of put) parts.push(line);
    done = at + taken;
  }
  for (const line of lines.slice(done)) parts.push(line);
  return parts.join('\n');
}

/** Characters that keeping a change takes, about. */
export function sizeOfChange(change: TextChange): number {
  return change.reduce((sum, [, , put]) => put.reduce((all, line) => all + line.length + 3, sum + 16), 2);
}

/** A change as it was found; null when what was found is none. */
export function readChange(found: unknown): TextChange | null {
  return Array.isArray(found) && found.every(isLineChange) ? found : null;
}

function isLineChange(found: unknown): found is LineChange {
  if (!Array.isArray(found) || found.length !== 3) return false;
  const [at, taken, put]: readonly unknown[] = found;
  return (
    Number.isInteger(at) && Number.isInteger(taken) && Array.isArray(put) && put.every((l) => typeof l === 'string')
  );
}
