import { describe, expect, it } from 'vitest';
import { distanceBetween } from '../../src/geodesy/geodesic.ts';
import { type Projection, projectionOf } from '../../src/geodesy/projection.ts';
import recorded from './crs-values.json';

async function epsg(code: number): Promise<Projection> {
  const found = await projectionOf({ kind: 'epsg', code });
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
}

/** `echo LAT LON | cs2cs -f %.4f EPSG:4326 EPSG:n` (PROJ 9.1.1), turned to east, north. */
const cs2cs: readonly (readonly [number, number, number, number, number])[] = [
  [32632, 47, 11, 652049.0369, 5207105.3271],
  [32633, 47, 11, 195914.7575, 5212933.2436],
  [32610, 38.9, -122.4, 552028.3083, 4305850.644],
  [32760, -41.2, 174.8, 315530.9643, 5436707.2561],
  [32755, -37.8, 144.9, 315115.6121, 5814297.8489],
  [32736, -1.3, 36.8, 923048.7792, 9855992.0598],
  [2193, -41.2, 174.8, 1750927.5671, 5437478.7808],
  [3857, 47, 11, 1224514.3987, 5942074.0724],
];

describe('coordinates of a CRS', () => {
  it.each(cs2cs)('EPSG:%i at %f, %f are those of cs2cs to a tenth of a millimetre', async (code, lat, lon, x, y) => {
    const place = (await epsg(code)).forward({ lon, lat });
    expect(Math.hypot((place?.x ?? 0) - x, (place?.y ?? 0) - y)).toBeLessThan(1e-4);
  });

  it('tell feet from US survey feet: two parts in a million, 12 m at six million feet', async () => {
    // 1 US survey foot = 1200/3937 m, 1 foot = 0.3048 m: NIST Special Publication 811, 2008, B.8.
    const us = await epsg(2229);
    const international = await epsg(2251);
    expect(us.metresPerUnit).toBe(1200 / 3937);
    expect(international.metresPerUnit).toBe(0.3048);
    expect((us.metresPerUnit / international.metresPerUnit - 1) * 1e6).toBeCloseTo(2, 2);
  });

  it('come with the operation that shifts the datum and how well it fits', async () => {
    // Accuracies as `projinfo -s EPSG:n -t EPSG:4326 --spatial-test intersects --grid-check none` prints them.
    expect((await epsg(27700)).shift).toEqual({ name: 'OSGB36 to WGS 84 (6)', accuracy: 2 });
    expect((await epsg(28992)).shift).toEqual({ name: 'Amersfoort to WGS 84 (4)', accuracy: 1 });
    expect((await epsg(2056)).shift).toEqual({ name: 'CH1903+ to WGS 84 (1)', accuracy: 1 });
    expect((await epsg(32632)).shift.accuracy).toBe(0);
    expect((await epsg(2193)).shift.accuracy).toBe(1);
  });

  it('are taken from the horizontal part of a compound code', async () => {
    const compound = await epsg(5555);
    expect(compound.code).toBe(25832);
    expect(compound.name).toBe('ETRS89 / UTM zone 32N');
  });

  it('are degrees for a geographic CRS', async () => {
    const degrees = await epsg(4326);
    expect(degrees.geographic).toBe(true);
    expect(degrees.forward({ lon: 11, lat: 47 })).toEqual({ x: 11, y: 47 });
    expect((await epsg(2193)).geographic).toBe(false);
  });

  it('do not exist where a projection has no such place', async () => {
    const mercator = await epsg(3857);
    expect(mercator.forward({ lon: 0, lat: 90 })).toBeNull();
    expect(mercator.inverse({ x: Number.NaN, y: 0 })).toBeNull();
  });
});

describe('the whole table', () => {
  const codes = new Set(recorded.values.map(([code]) => code));

  it('was recorded in hundreds of CRS by both programs', () => {
    expect(codes.size).toBeGreaterThan(400);
    for (const tool of ['cs2cs', 'cct'])
      expect(recorded.values.filter((v) => v[1] === tool).length).toBeGreaterThan(200);
  });

  it('without a datum shift agrees with cs2cs to a millimetre', async () => {
    for (const value of recorded.values.filter((v) => v[1] === 'cs2cs')) {
      const { projection, miss } = await missOf(value);
      if (projection.shift.accuracy !== null && !OFF_ITS_MERIDIAN.has(Number(value[0])))
        expect([value, miss < 1e-3]).toEqual([value, true]);
    }
  });

  it('with one agrees with PROJ on the operation that it names, to the 4 mm that a rotation by seconds leaves', async () => {
    for (const value of recorded.values.filter((v) => v[1] === 'cct')) {
      const { miss } = await missOf(value);
      if (!OFF_ITS_MERIDIAN.has(Number(value[0]))) expect([value, miss < 4e-3]).toEqual([value, true]);
    }
  });

  it('leads back to the place it came from, to a micrometre', async () => {
    for (const [code, , lon, lat] of recorded.values) {
      const position = { lon: Number(lon), lat: Number(lat) };
      const projection = await epsg(Number(code));
      const place = projection.forward(position);
      const back = place && projection.inverse(place);
      expect([code, back !== null && distanceBetween(back, position) < 1e-6]).toEqual([code, true]);
    }
  });
});

/** Cassini's series, used 3° off its meridian, where neither program claims a centimetre. */
const OFF_ITS_MERIDIAN = new Set([28191]);

/** How far the table's answer lies from the recorded one, m. */
async function missOf(value: readonly (string | number)[]): Promise<{ projection: Projection; miss: number }> {
  const [code, , lon, lat, x, y] = value;
  const projection = await epsg(Number(code));
  const place = projection.forward({ lon: Number(lon), lat: Number(lat) });
  if (!place) return { projection, miss: Number.POSITIVE_INFINITY };
  const miss = projection.geographic
    ? distanceBetween({ lon: Number(x), lat: Number(y) }, { lon: place.x, lat: place.y })
    : Math.hypot(place.x - Number(x), place.y - Number(y)) * projection.metresPerUnit;
  return { projection, miss };
}

describe('a CRS that cannot be computed', () => {
  const problemOf = async (code: number): Promise<string> => {
    const found = await projectionOf({ kind: 'epsg', code });
    return found.ok ? 'none' : `${found.problems[0]?.code} ${found.problems[0]?.found}`;
  };

  it('is refused by its number when the registry has none such', async () => {
    expect(await problemOf(999999)).toBe('crs-unknown EPSG:999999');
    expect(await problemOf(5703)).toBe('crs-unknown EPSG:5703');
    expect(await problemOf(4978)).toBe('crs-unknown EPSG:4978');
  });

  it('is refused by its name when its axes run west and south, or it counts in grads', async () => {
    expect(await problemOf(2048)).toBe('crs-not-computable EPSG:2048 Hartebeesthoek94 / Lo19');
    expect(await problemOf(5513)).toBe('crs-not-computable EPSG:5513 S-JTSK / Krovak');
    expect(await problemOf(4807)).toBe('crs-not-computable EPSG:4807 NTF (Paris)');
  });
});

describe('a CRS built from a file’s own keys', () => {
  const own = (definition: string) => projectionOf({ kind: 'proj', definition, title: 'own' });

  it('is computed like the registered one', async () => {
    const albers = await own(
      '+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +ellps=GRS80 +units=m +no_defs',
    );
    const registered = (await epsg(5070)).forward({ lon: -93, lat: 45 });
    expect(albers.ok && albers.value.forward({ lon: -93, lat: 45 })).toEqual(registered);
  });

  it.each([
    '+proj=spilhaus +ellps=GRS80',
    '+proj=tmerc +ellps=marsian',
    '+proj=tmerc +datum=OSGB36',
    '+proj=tmerc +ellps=airy +nadgrids=OSTN15.gsb',
    '+proj=tmerc +ellps=GRS80 +units=cubit',
    '+proj=tmerc +ellps=GRS80 +axis=neu',
    '+proj=cass +ellps=GRS80 +hyperbolic',
    'nonsense',
  ])('is refused, not guessed, for %s', async (definition) => {
    const found = await own(definition);
    expect(found.ok ? 'computed' : found.problems[0]?.code).toBe('crs-not-computable');
  });
});
