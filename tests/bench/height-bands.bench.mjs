// How often the 10-to-90 band of a height difference holds the truth, on the demo valley; other ground by
// `node scripts/bench/height-bands.mjs DEM…`.
import { demoBands } from '../../scripts/bench/height-bands.mjs';

export async function bench(report) {
  const { rows } = await demoBands();
  for (const { cell, class: id, terrain, survey, bias, noted } of rows) {
    const note = `aim 75 to 85; averaging shifts it ${bias.toFixed(2)} m, noted ${noted.toFixed(2)} m`;
    report(`${cell.toFixed(0)} m as ${id}, ${terrain}`, 100 * survey, '% in the band', note);
  }
}
