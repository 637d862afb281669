import { describe, expect, it } from 'vitest';
import type { Position } from '../../src/geodesy/position.ts';
import { groundAlong } from '../../src/terrain/ground/ground-along.ts';
import { groundAt } from '../../src/terrain/ground/ground-at.ts';
import { gridOf } from './grid-in-memory.ts';
import { placed } from './placed.ts';

/**
 * x, y and the height there by GDAL 3.6.2, for heights z(column, row) = 300 + 0.37 c − 0.21 r + 2.5 sin(c/3) cos(r/4) in Float64,
 * 40 × 30 cells, recorded in Python with h half a cell:
 * gdal.Warp('', dem, format='MEM', outputBounds=(x-h, y-h, x+h, y+h), width=1, height=1, resampleAlg='bilinear',
 *           outputType=gdal.GDT_Float64, errorThreshold=0).ReadAsArray()[0, 0]
 */
const inMetres: readonly (readonly [number, number, number])[] = [
  [500024.50343679776, 5199974.672441175, 306.1218944115661],
  [500029.9246848488, 5199992.14461306, 309.58482783125817],
  [500012.8059862568, 5199975.28761042, 297.5085926533029],
  [500002.18955096434, 5199976.648061122, 296.93313866301],
  [500030.6944994351, 5199985.833691226, 309.71551011724387],
  [500012.9091673655, 5199990.760934086, 303.9409335630676],
  [500011.1753051556, 5199986.428016047, 302.1956931430038],
  [500020.1637373225, 5199983.609068846, 303.4930615417725],
  [500037.8380102036, 5199977.3907901, 308.9562878379383],
  [500024.3984522599, 5199972.28703616, 305.26168916043235],
  [500009.7511131365, 5199993.83448712, 302.25520829489267],
  [500024.0514257538, 5199996.857507793, 310.0918461155313],
  [500003.28449003585, 5199984.612890673, 296.2504571840349],
  [500018.7834169117, 5199974.153637897, 300.9810227459824],
  [500024.6521451617, 5199984.632941188, 303.778987942725],
  [500019.88744367415, 5199991.564612027, 305.33091392684],
  [500002.4245849195, 5199992.997544256, 299.26551973850525],
  [500026.9131563518, 5199992.784225176, 308.20838912035606],
  [500015.3033071817, 5199997.902909706, 302.93178217264597],
  [500031.88171827287, 5199993.984011892, 310.05154643441125],
];
const inDegrees: readonly (readonly [number, number, number])[] = [
  [3.0068065102216024, 46.992964566992995, 306.1218944115172],
  [3.0083124124580074, 46.99781794807229, 309.584827831267],
  [3.003557218404668, 46.99313544733881, 297.5085926532102],
  [3.000608208601211, 46.99351335031168, 296.93313866303527],
  [3.008526249843076, 46.996064914229464, 309.7155101171699],
  [3.0035858798237487, 46.99743359280149, 303.94093356309844],
  [3.003104251432097, 46.996230004457516, 302.1956931429945],
  [3.005601038145135, 46.99544696356835, 303.4930615417452],
  [3.0105105583898997, 46.99371966391679, 308.9562878380189],
  [3.006777347849967, 46.992301954488966, 305.26168916057395],
  [3.0027086425379115, 46.99828735753325, 302.25520829489443],
  [3.0066809515982857, 46.99912708549806, 310.09184611542577],
  [3.0009123583432915, 46.99572580296471, 296.25045718403294],
  [3.0052176158088084, 46.99282045497139, 300.98102274591656],
  [3.0068478181004656, 46.995731372552335, 303.77898794270175],
  [3.0055242899094905, 46.997656836674246, 305.3309139268501],
  [3.0006734958109806, 46.99805487340455, 299.2655197387088],
  [3.007475876764374, 46.99799561810454, 308.2083891204925],
  [3.004250918661578, 46.999417474918516, 302.93178217263835],
  [3.008856032853573, 46.99832889219233, 310.05154643435617],
];

const height = (c: number, r: number): number => 300 + 0.37 * c - 0.21 * r + 2.5 * Math.sin(c / 3) * Math.cos(r / 4);
const inUtm = {
  crs: { kind: 'epsg', code: 32631 },
  affine: { a: 1, b: 0, c: 500000, d: 0, e: -1, f: 5200000 },
} as const;
const second = 1 / 3600;
const inLonLat = {
  crs: { kind: 'epsg', code: 4326 },
  affine: { a: second, b: 0, c: 3, d: 0, e: -second, f: 47 },
} as const;

describe.each([
  { title: 'a grid in metres', options: inUtm, values: inMetres },
  { title: 'a grid in degrees', options: inLonLat, values: inDegrees },
])('heights of $title', ({ options, values }) => {
  it('under single points are those of GDAL bilinear to a micrometre', async () => {
    const grid = await placed(gridOf(40, 30, height, options));
    const points = values.map(([x, y]) => grid.projection.inverse({ x, y }) as Position);
    const found = await groundAt([grid], points);
    values.forEach(([, , z], k) => {
      expect(Math.abs((found[k]?.ground ?? 0) - z)).toBeLessThan(1e-6);
    });
  });

  it('at the vertices of a drawn line are those of GDAL bilinear to a micrometre', async () => {
    const grid = await placed(gridOf(40, 30, height, options));
    const line = await groundAlong(
      [grid],
      values.map(([x, y]) => grid.projection.inverse({ x, y }) as Position),
    );
    values.forEach(([, , z], k) => {
      const i = line.vertices[k] ?? -1;
      expect(line.known[i]).toBe(1);
      expect(Math.abs((line.ground[i] ?? 0) - z)).toBeLessThan(1e-6);
    });
  });
});
