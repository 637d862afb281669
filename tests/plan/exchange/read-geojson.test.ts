import { describe, expect, it } from 'vitest';
import { writePlan } from '../../../src/plan/file/write-plan.ts';
import { samplePlan } from '../sample-plan.ts';
import { placesIn, previewOf, refusalOf } from './read-text.ts';

const feature = (geometry: unknown, properties: unknown = null) => ({ type: 'Feature', geometry, properties });
const collection = (...features: unknown[]) => JSON.stringify({ type: 'FeatureCollection', features });

describe('a GeoJSON file that is no plan', () => {
  it('gives its points and lines, several in one feature as items of their own', () => {
    // Geometries as in RFC 7946, appendix A.
    const text = collection(
      feature({ type: 'Point', coordinates: [100, 0] }, { name: 'Spring' }),
      feature(
        {
          type: 'LineString',
          coordinates: [
            [100, 0],
            [101, 1],
          ],
        },
        { title: 'Track' },
      ),
      feature(
        {
          type: 'MultiPoint',
          coordinates: [
            [100, 0],
            [101, 1],
          ],
        },
        { name: 'Pair' },
      ),
      feature({
        type: 'MultiLineString',
        coordinates: [
          [
            [100, 0],
            [101, 1],
          ],
          [
            [102, 2],
            [103, 3],
          ],
        ],
      }),
      feature({ type: 'GeometryCollection', geometries: [{ type: 'Point', coordinates: [5, 6, 7] }] }),
    );
    expect(placesIn(previewOf(text))).toEqual([
      ['point', 'Spring', [[100, 0]]],
      [
        'line',
        'Track',
        [
          [100, 0],
          [101, 1],
        ],
      ],
      ['point', 'Pair', [[100, 0]]],
      ['point', 'Pair (2)', [[101, 1]]],
      [
        'line',
        '',
        [
          [100, 0],
          [101, 1],
        ],
      ],
      [
        'line',
        '',
        [
          [102, 2],
          [103, 3],
        ],
      ],
      ['point', '', [[5, 6]]],
    ]);
    expect(previewOf(text).items.at(-1)?.heights).toEqual({ count: 1, lowest: 7, highest: 7 });
  });

  it('may be a bare geometry or a single feature', () => {
    expect(placesIn(previewOf('{"type":"Point","coordinates":[1,2]}'))).toEqual([['point', '', [[1, 2]]]]);
    const single = JSON.stringify(feature({ type: 'Point', coordinates: [1, 2] }, { name: 7 }));
    expect(placesIn(previewOf(single))).toEqual([['point', '7', [[1, 2]]]]);
  });

  it('says where a shape is left out, and where a place is broken', () => {
    const ring = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 0],
    ];
    const text = collection(
      feature({ type: 'Polygon', coordinates: [ring] }),
      feature(null),
      feature({ type: 'Point', coordinates: [null, 2] }),
      feature({ type: 'Point', coordinates: [1] }),
      feature({ type: 'LineString', coordinates: [[0, 0], 'x'] }),
    );
    const preview = previewOf(text);
    expect(preview.problems.map(({ path, found }) => [path, found])).toEqual([
      ['features[0].geometry', '"Polygon"'],
      ['features[1].geometry', 'null'],
    ]);
    expect(preview.items.map(({ problems }) => problems.map(({ code, path }) => [code, path]))).toEqual([
      [['not-a-number', 'features[2].geometry.coordinates']],
      [['not-a-number', 'features[3].geometry.coordinates']],
      [['not-a-number', 'features[4].geometry.coordinates']],
    ]);
  });

  it('is no plan: a plan is to be opened', () => {
    expect(refusalOf(writePlan(samplePlan))).toMatchObject({ code: 'is-a-plan' });
  });

  it('is refused in another reference system', () => {
    const crs = (name: string) =>
      JSON.stringify({ type: 'Point', coordinates: [1, 2], crs: { type: 'name', properties: { name } } });
    expect(refusalOf(crs('urn:ogc:def:crs:EPSG::27700'))).toMatchObject({ code: 'wrong-crs' });
    expect(placesIn(previewOf(crs('urn:ogc:def:crs:OGC:1.3:CRS84')))).toEqual([['point', '', [[1, 2]]]]);
  });
});
