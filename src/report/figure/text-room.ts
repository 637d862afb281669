/** A rectangle that a label takes in a figure, px. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const NARROW = /[ijltfI1.,:;'|()[\]{}! ]/;
const WIDE = /[mwMW@%—]/;

/**
 * Width of a line of text, px, from rough widths of letters. There is no font to ask in the core; the estimate is on the
 * wide side for the sans-serif faces that the planner and its prints use (common practice, no source).
 */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) ems += NARROW.test(letter) ? 0.34 : WIDE.test(letter) ? 0.92 : letter > '\u2e80' ? 1 : 0.6;
  return ems * size;
}

/** A text cut to a width with an ellipsis; whole when it fits. */
export function fitText(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidth(`${letters.join('')}…`, size) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** The places already taken in a figure; a label is drawn only where it touches none of them. */
export class TakenRoom {
  readonly #boxes: Box[] = [];
  readonly #inside: Box;

  constructor(inside: Box) {
    this.#inside = inside;
  }

  /** Takes the first of the places that is free and inside the figure; null when none is. */
  take(places: readonly Box[]): Box | null {
    return this.takeTogether(places.map((place) => [place]))?.[0] ?? null;
  }

  /** Takes the first group of boxes of which every one is free and inside the figure; null when none is. */
  takeTogether(groups: readonly (readonly Box[])[]): readonly Box[] | null {
    const free = groups.find((group) => group.every((box) => this.isFree(box)));
    if (free !== undefined) this.#boxes.push(...free);
    return free ?? null;
  }

  /** Whether a place is inside the figure and touches nothing that is taken. */
  isFree(place: Box): boolean {
    return within(place, this.#inside) && !this.#boxes.some((box) => touch(box, place));
  }

  /** Marks a place as taken without asking. */
  block(box: Box): void {
    this.#boxes.push(box);
  }
}

function touch(one: Box, other: Box): boolean {
  return (
    one.left < other.left + other.width &&
    other.left < one.left + one.width &&
    one.top < other.top + other.height &&
    other.top < one.top + one.height
  );
}

function within(box: Box, outer: Box): boolean {
  return (
    box.left >= outer.left &&
    box.top >= outer.top &&
    box.left + box.width <= outer.left + outer.width &&
    box.top + box.height <= outer.top + outer.height
  );
}
