// How often the 10-to-90 band of a height difference holds the truth, as tables by cell, class and kind of pair.
import { allBands, tableOf } from '../../scripts/bench/height-bands.mjs';

export async function bench(_report, { files }) {
  for (const bands of await allBands(files)) console.log(tableOf(bands).join('\n'));
}
