import { kml } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { kmlOf, placesIn, previewOf, refusalOf, sample } from './read-text.ts';

/** A file written by hand after OGC KML 2.2.0, Open Geospatial Consortium 07-147r2, 2008. */
const farm = sample('farm.kml');

describe('a KML file', () => {
  it('gives the points and lines of its placemarks, also inside folders', () => {
    // As `ogrinfo -al` of GDAL 3.6.2 lists them, folder by folder.
    expect(placesIn(previewOf(farm))).toEqual([
      ['point', 'Hill tank', [[-39.9958, 38.0061]]],
      ['point', 'Meadow trough', [[-39.9981, 38.0009]]],
      [
        'line',
        'Gravity line',
        [
          [-39.9958, 38.0061],
          [-39.997, 38.0031],
          [-39.9981, 38.0009],
        ],
      ],
      ['point', 'Both', [[-39.9, 38.1]]],
      [
        'line',
        'Both (2)',
        [
          [-39.9, 38.1],
          [-39.8, 38.2],
        ],
      ],
    ]);
  });

  it('gives the same points and lines as another reader of KML', () => {
    const document = new DOMParser().parseFromString(new TextDecoder().decode(farm), 'text/xml');
    const theirs = kml(document as unknown as Document).features.flatMap(({ geometry }) => {
      if (geometry === null) return [];
      return geometry.type === 'GeometryCollection' ? geometry.geometries : [geometry];
    });
    const coordinates = theirs.flatMap((geometry) => {
      if (geometry.type === 'Point') return [[geometry.coordinates.slice(0, 2)]];
      return geometry.type === 'LineString' ? [geometry.coordinates.map((place) => place.slice(0, 2))] : [];
    });
    const ours = previewOf(farm).items.map(({ positions }) => positions.map(({ lon, lat }) => [lon, lat]));
    expect(ours).toEqual(coordinates);
  });

  it('says what it leaves out by name and fetches nothing', () => {
    expect(previewOf(farm).problems.map(({ code, found }) => [code, found])).toEqual([
      ['not-imported', '"Polygon"'],
      ['not-imported', '"NetworkLink"'],
    ]);
  });

  it('keeps an absolute altitude apart; one that lies on the ground by the standard is no height', () => {
    const { items } = previewOf(farm);
    expect(items.map(({ heights }) => heights?.lowest ?? null)).toEqual([131.5, null, null, null, null]);
    expect(items[0]?.note).toBe('<b>Two</b> cubic metres');
  });

  it('refuses KMZ by name, as it is zipped', () => {
    const zip = Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 0, 0, 8, 0);
    expect(refusalOf(zip)).toMatchObject({ code: 'zipped', found: 'a zipped file, such as KMZ' });
  });

  it('a place with blanks after its commas is told, not guessed', () => {
    const spaced = '<Placemark><name>A</name><Point><coordinates>1, 2</coordinates></Point></Placemark>';
    expect(previewOf(kmlOf(spaced))).toMatchObject({
      items: [],
      problems: [{ code: 'not-imported', found: '2 places' }],
    });
  });
});
