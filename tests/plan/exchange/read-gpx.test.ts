import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { gpxOf, placesIn, previewOf, refusalOf, sample } from './read-text.ts';

/** A file written by hand after the GPX 1.1 Schema Documentation, TopoGrafix, 2004. */
const fieldDay = sample('field-day.gpx');

describe('a GPX file', () => {
  it('gives its waypoints, routes and the segments of its tracks, in the order of the file', () => {
    // As `ogrinfo -al` of GDAL 3.6.2 lists the layers waypoints, routes and tracks; a place recorded twice in a row counts once.
    expect(placesIn(previewOf(fieldDay))).toEqual([
      ['point', 'Spring box', [[-40.0042, 38.0001]]],
      ['point', 'Pump & pit', [[-40.0031, 38.0008]]],
      ['point', 'Tank <upper>', [[-39.9958, 38.0061]]],
      [
        'line',
        'Delivery',
        [
          [-40.0031, 38.0008],
          [-39.999, 38.003],
          [-39.9958, 38.0061],
        ],
      ],
      [
        'line',
        'Walk',
        [
          [-40.0042, 38.0001],
          [-40.0036, 38.0005],
        ],
      ],
      [
        'line',
        'Walk (2)',
        [
          [-40.0034, 38.0006],
          [-40.0031, 38.0008],
        ],
      ],
      ['line', 'Walk (3)', []],
    ]);
  });

  it('gives the same waypoints and route as another reader of GPX', () => {
    const document = new DOMParser().parseFromString(new TextDecoder().decode(fieldDay), 'text/xml');
    const theirs = gpx(document as unknown as Document).features;
    const points = theirs.filter(({ geometry }) => geometry?.type === 'Point');
    const route = theirs.find(({ properties }) => properties?._gpxType === 'rte');
    const preview = previewOf(fieldDay);
    const flat = (coordinates: readonly number[]) => coordinates.slice(0, 2);
    expect(preview.items.filter(({ kind }) => kind === 'point').map(({ name }) => name)).toEqual(
      points.map(({ properties }) => properties?.name),
    );
    expect(placesIn(preview).slice(0, 3)).toEqual(
      points.map(({ geometry, properties }) => [
        'point',
        properties?.name,
        geometry?.type === 'Point' ? [flat(geometry.coordinates)] : [],
      ]),
    );
    expect(route?.geometry?.type === 'LineString' && route.geometry.coordinates.map(flat)).toEqual(
      preview.items[3]?.positions.map(({ lon, lat }) => [lon, lat]),
    );
  });

  it('keeps heights apart from places, and suggests roles by type and name', () => {
    const { items } = previewOf(fieldDay);
    expect(items.map(({ heights }) => heights)).toEqual([
      { count: 1, lowest: 104.62, highest: 104.62 },
      null,
      { count: 1, lowest: 131, highest: 131 },
      null,
      { count: 3, lowest: 103.2, highest: 104.3 },
      null,
      null,
    ]);
    expect(items.map(({ suggested }) => suggested)).toEqual(['source', 'pump', 'tank', 'delivery', null, null, null]);
    expect(items.map(({ note }) => note).slice(0, 2)).toEqual(['Only a comment', 'Level place,\n      two steps down']);
  });

  it('is read in its first version and without a namespace as well, and in no other namespace', () => {
    const old = '<gpx version="1.0" creator="t" xmlns="http://www.topografix.com/GPX/1/0"><wpt lat="1" lon="2"/></gpx>';
    const bare = '<gpx version="1.1" creator="t"><wpt lat="1" lon="2"><name>A</name></wpt></gpx>';
    expect(placesIn(previewOf(old))).toEqual([['point', '', [[2, 1]]]]);
    expect(placesIn(previewOf(bare))).toEqual([['point', 'A', [[2, 1]]]]);
    expect(refusalOf(bare.replace('version', 'xmlns="urn:other" version'))).toMatchObject({ code: 'unknown-version' });
  });

  it.each([
    ['lat="91" lon="0"', 'out-of-range', '"91"'],
    ['lat="0" lon="-180.0001"', 'out-of-range', '"-180.0001"'],
    ['lat="NaN" lon="0"', 'not-a-number', '"NaN"'],
    ['lat="0" lon="INF"', 'not-a-number', '"INF"'],
    ['lat="0" lon="1e400"', 'not-a-number', '"1e400"'],
    ['lat="0,5" lon="0"', 'not-a-number', '"0,5"'],
    ['lat="0x10" lon="0"', 'not-a-number', '"0x10"'],
    ['lat="" lon="0"', 'not-a-number', '""'],
    ['lat="0"', 'not-a-number', 'nothing'],
  ])('a place of %s is a problem of its own item (%s), and the others stay', (place, code, found) => {
    const { items } = previewOf(gpxOf(`<wpt ${place}/><wpt lat="1" lon="2"/>`));
    expect(items[0]).toMatchObject({ positions: [], problems: [{ code, path: 'line 1, wpt', found }] });
    expect(items[1]).toMatchObject({ positions: [{ lon: 2, lat: 1 }], problems: [] });
  });

  it('a line with one bad place has a problem, so that it is never imported with a gap', () => {
    const body = '<rte><rtept lat="1" lon="1"/><rtept lat="x" lon="1"/><rtept lat="2" lon="1"/></rte>';
    expect(previewOf(gpxOf(body)).items[0]?.problems).toHaveLength(1);
  });
});
