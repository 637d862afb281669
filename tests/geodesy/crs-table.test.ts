import { describe, expect, it } from 'vitest';
import other from '../../data/crs/epsg-other.json';
import shifts from '../../data/crs/shifts.json';
import { crsFromTable } from '../../src/geodesy/crs-table.ts';
import { crsByRule, projectionOf } from '../../src/geodesy/projection.ts';
import { compoundCrs, verticalCrs } from '../../src/geodesy/vertical-crs.ts';

/** Every file of the table, as the bundler sees them. */
const files = import.meta.glob<{ readonly default: { readonly rows: readonly string[] } }>(
  '../../data/crs/epsg-*.json',
  {
    eager: true,
  },
);
const rows = Object.values(files).flatMap((file) => file.default.rows);

describe('the table of CRS', () => {
  it('holds the registry: some 6 000 codes, each once', () => {
    expect(rows.length).toBeGreaterThan(5900);
    expect(new Set(rows.map((row) => row.split('|')[0])).size).toBe(rows.length);
    expect(other.rows.length).toBeGreaterThan(0);
  });

  it('is found code by code, whichever file a code is in, and every one of them is computable', async () => {
    const wrong: string[] = [];
    for (const row of rows) {
      const [code = '', name = '', , shift = '', box = ''] = row.split('|');
      const found = await projectionOf({ kind: 'epsg', code: Number(code) });
      if (!found.ok) wrong.push(`${code} ${found.problems[0]?.found}`);
      else if (found.value.name !== name) wrong.push(`${code} is called ${found.value.name}`);
      else if (!reachesItsArea(found.value, box)) wrong.push(`${code} ${name} does not reach its own area`);
      if (Number(shift) >= shifts.rows.length) wrong.push(`${code} has no shift ${shift}`);
    }
    expect(wrong).toEqual([]);
  });

  it('says of zones by rule just what it says of them in the registry', async () => {
    let zones = 0;
    for (const row of rows) {
      const code = Number(row.split('|')[0]);
      const ruled = crsByRule(code);
      if (!ruled) continue;
      zones++;
      const tabled = await crsFromTable(code);
      expect({ ...ruled, area: tabled?.area }).toEqual(tabled);
    }
    expect(zones).toBeGreaterThan(165);
  });
});

function reachesItsArea(projection: { forward(p: { lon: number; lat: number }): unknown }, box: string): boolean {
  if (box === '') return true;
  const [west = 0, south = 0, east = 0, north = 0] = box.split(',').map(Number);
  const middle = { lon: (west + east + (east < west ? 360 : 0)) / 2, lat: (south + north) / 2 };
  return projection.forward({ ...middle, lon: middle.lon > 180 ? middle.lon - 360 : middle.lon }) !== null;
}

describe('vertical systems', () => {
  /** EPSG Geodetic Parameter Dataset v10.076, `projinfo EPSG:n`. */
  it.each([
    [5703, 'NAVD88 height', 'up', 'metre', 1],
    [6360, 'NAVD88 height (ftUS)', 'up', 'US survey foot', 1200 / 3937],
    [8228, 'NAVD88 height (ft)', 'up', 'foot', 0.3048],
    [5754, 'Poolbeg height (ft(Br36))', 'up', 'British foot 1936', 0.3048007491],
    [5831, 'Instantaneous Water Level depth', 'down', 'metre', 1],
    [6358, 'NAVD88 depth (ftUS)', 'down', 'US survey foot', 1200 / 3937],
    [3855, 'EGM2008 height', 'up', 'metre', 1],
  ])('%i is %s, %s in %s', async (code, name, direction, unit, metresPerUnit) => {
    expect(await verticalCrs(code)).toEqual({ code, name, direction, unit, metresPerUnit });
  });

  it('are none for the code of something else', async () => {
    expect(await verticalCrs(4326)).toBeNull();
  });

  it('make up a compound code with a horizontal one', async () => {
    expect(await compoundCrs(5555)).toEqual({
      code: 5555,
      name: 'ETRS89 / UTM zone 32N + DHHN92 height',
      horizontal: 25832,
      vertical: 5783,
    });
    expect(await compoundCrs(25832)).toBeNull();
  });
});
