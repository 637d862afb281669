import { DAY_S } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** What the colours, patterns and lines of a map of what would arrive mean. */
export interface ReachLegend {
  readonly title: string;
  /** A class in words, from little to much. */
  readonly classes: readonly string[];
  readonly patterns: readonly { readonly kind: 'sags' | 'summit'; readonly words: string }[];
  /** The need, in words; null where nobody has said it. */
  readonly lines: readonly { readonly kind: 'sure' | 'may'; readonly words: string }[];
  /** What the cells that were looked at cannot show; null where they are the file's own. */
  readonly note: string | null;
}

const aDay = (flow: number, units: UnitSystem): string => writeQuantity(flow * DAY_S, 'daily-volume', units);

/** Flows in m³/s, widths in m. */
export function reachLegendOf({
  edges,
  need,
  cell,
  coarser,
  units,
}: {
  readonly edges: readonly number[];
  readonly need: number | null;
  readonly cell: number;
  readonly coarser: number;
  readonly units: UnitSystem;
}): ReachLegend {
  const first = edges[0];
  const between = edges.slice(1).map((edge, k) => `${aDay(edges[k] ?? 0, units)} to ${aDay(edge, units)}`);
  const last = edges.at(-1);
  return {
    title: 'What would arrive a day',
    classes:
      first === undefined || last === undefined
        ? ['something']
        : [`under ${aDay(first, units)}`, ...between, `over ${aDay(last, units)}`],
    patterns: [
      { kind: 'sags', words: 'the line has sags' },
      { kind: 'summit', words: 'the line passes a summit above its outlet' },
    ],
    lines:
      need === null
        ? []
        : [
            { kind: 'sure', words: `within: ${aDay(need, units)} surely met` },
            { kind: 'may', words: `within: ${aDay(need, units)} may be met` },
          ],
    note: coarser > 1 ? `read in cells of ${writeQuantity(cell, 'length', units)}` : null,
  };
}

/** What arrives at a place, in SI. */
interface Reading {
  readonly likely: number;
  readonly low: number;
  readonly high: number;
  readonly lift: number;
  readonly length: number;
  readonly kind: number;
  readonly level: number;
}

const WAYS = [
  'out of reach of the pump',
  'the line rises all the way',
  'the line has sags',
  'the line passes a summit above its outlet',
  'too low: nothing would push the pump’s waste valve open again',
] as const;

/** Lines for the corner of the map about a place under the pointer. */
export function reachReadout(reading: Reading, units: UnitSystem): string[] {
  const way = WAYS[reading.kind] ?? '';
  if (reading.level < 0) return [way];
  return [
    `${aDay(reading.likely, units)} would arrive (${aDay(reading.low, units)} to ${aDay(reading.high, units)})`,
    `lift ${writeQuantity(reading.lift, 'height', units)}, line ${writeQuantity(reading.length, 'length', units)}; ${way}`,
  ];
}
