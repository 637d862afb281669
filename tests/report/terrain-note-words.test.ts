import { describe, expect, it } from 'vitest';
import { terrainNoteSentence } from '../../src/report/words/terrain-note-words.ts';
import { terrainNoteCodes } from '../../src/terrain/grid/terrain-note.ts';

/** Every key that any note carries, as the list in the terrain describes them. */
const data = {
  class: 'lidar-1m-open',
  because: 'cell-size',
  step_m: 1,
  cell_m: 10,
  files: 2,
  from: 'west.tif',
  to: 'east.tif',
  crossings: 1,
  at_m: 120,
  file: 'west.tif',
  shift: 'seven parameters',
  accuracy_m: 2,
  crs: 'EPSG:2193',
  lon: -30,
  lat: 38,
  wanted_m: 0.5,
  times: 4,
  wanted_MB: 900,
  unit: 'metre',
  stated: '-9999.5',
  count: 3,
  slope: 0.14,
  slope_in_feet: 0.043,
  first: '99999 at column 3, row 4',
  about: 'unit',
  answered: 'foot',
};

describe('what a terrain has to tell', () => {
  it.each(terrainNoteCodes)('%s is told in whole sentences without gaps', (code) => {
    const sentence = terrainNoteSentence({ code, data }, 'metric');
    expect(sentence).toMatch(/^\S.*\.$/);
    expect(sentence).not.toMatch(/undefined|null |NaN| {2}|\( *\)/);
  });

  it('gives the step of a seam in the unit shown, and leaves it out where it is unknown', () => {
    // 1 m / 0.3048 = 3.28 ft.
    expect(terrainNoteSentence({ code: 'seam', data }, 'us')).toContain('differ by 3.3\u202fft');
    const { step_m: _, ...without } = data;
    expect(terrainNoteSentence({ code: 'seam', data: without }, 'us')).not.toContain('differ');
  });

  it('names the accuracy class in words', () => {
    expect(terrainNoteSentence({ code: 'accuracy-inferred', data }, 'metric')).toContain('Lidar ground model');
  });
});
