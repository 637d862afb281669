/**
 * A picture as data: an element of a figure with its attributes and children.
 *
 * Figures are pure functions that return such trees. The planner draws them in the page, the command line and the export
 * write them as SVG text.
 */
export interface FigureNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly FigureChild[];
}

export type FigureChild = FigureNode | string;

/** Attributes as a figure states them; null leaves the attribute out, numbers are written to a hundredth. */
export type FigureAttributes = Readonly<Record<string, string | number | null>>;

/** Builds one element; null children are left out. */
export function figureNode(
  tag: string,
  attributes: FigureAttributes,
  ...children: readonly (FigureChild | null)[]
): FigureNode {
  const written: Record<string, string> = {};
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null) written[name] = typeof value === 'number' ? tidy(value) : value;
  }
  return { tag, attributes: written, children: children.filter((child) => child !== null) };
}

/** A coordinate as text: a hundredth of a pixel at most, so that a stored figure does not change with the last digit. */
export function tidy(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a figure's coordinate must be finite, found ${value}`);
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
