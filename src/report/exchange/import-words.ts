import { polylineLength } from '../../geodesy/polyline-length.ts';
import type { ImportedLine } from '../../plan/exchange/import-into.ts';
import type { FoundItem, HeightsAside } from '../../plan/exchange/import-preview.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { nameOf } from '../words/measure-words.ts';
import { positionWords } from '../words/position-words.ts';

/** What an item of a preview is, in a line: where a point lies, how long a line is. */
export function foundItemWords(item: FoundItem, units: UnitSystem): string {
  const [first] = item.positions;
  if (first === undefined) return item.kind === 'point' ? 'Point that cannot be read' : 'Line that cannot be read';
  if (item.kind === 'point') return `Point at ${positionWords(first)}`;
  const length = writeQuantity(polylineLength(item.positions), 'length', units);
  return `Line of ${item.positions.length} places, ${length} long`;
}

/** What is said of heights in a file; null when it has none. */
export function heightsAsideWords(heights: HeightsAside | null, units: UnitSystem): string | null {
  if (heights === null) return null;
  const range = writeRange(heights.lowest, heights.highest, 'height', units);
  return `Height in the file: ${range}. It has another zero than the elevation file, so it is kept as a note and not used.`;
}

/** What became of an imported line: what simplifying left out, how far its ends were moved. */
export function importedLineWords(line: ImportedLine, plan: Plan, units: UnitSystem): string {
  const moved = (end: ImportedLine['from']) =>
    `${nameOf(plan, end.point)} (moved ${writeQuantity(end.moved, 'height', units)})`;
  const all = line.vertices + line.dropped;
  const dropped = line.dropped === 0 ? `all ${all} vertices kept` : `${line.dropped} of ${all} vertices left out`;
  const turned = line.reversed ? ', turned to run with the water' : '';
  return `${nameOf(plan, line.route)}: from ${moved(line.from)} to ${moved(line.to)}, ${dropped}${turned}.`;
}
