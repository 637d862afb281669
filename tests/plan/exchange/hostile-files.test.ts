import { describe, expect, it } from 'vitest';
import { importLimits } from '../../../src/plan/exchange/import-preview.ts';
import { readImport } from '../../../src/plan/exchange/read-import.ts';
import { damagedFiles, type Hostile, nastyNames, nastyPlaces } from './hostile-corpus.ts';
import { bytesOf, gpxOf, kmlOf, placesIn, previewOf, refusalOf } from './read-text.ts';

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const HIDDEN = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/u;

/** What must hold of a file whatever is in it; empty when all does. */
function faultsOf({ what, bytes }: Hostile): readonly string[] {
  const read = readImport({ name: what, bytes });
  if (!read.ok) return read.problems.length === 1 ? [] : [`${what}: ${read.problems.length} problems`];
  const { items, problems } = read.value;
  const told = [...problems, ...items.flatMap((item) => [...item.problems, ...item.remarks])];
  const places = items.flatMap(({ positions }) => positions);
  return [
    ...(items.length + problems.length === 0 ? [`${what}: nothing found and nothing said`] : []),
    ...(places.every(({ lon, lat }) => Math.abs(lon) <= 180 && Math.abs(lat) <= 90)
      ? []
      : [`${what}: a place off the earth`]),
    ...(items.every(({ name }) => name.length <= 200 && !HIDDEN.test(name) && !/[\n\t]/.test(name))
      ? []
      : [`${what}: a name`]),
    ...(told.every(({ found, path }) => found.length < 200 && path.length < 200 && !HIDDEN.test(found))
      ? []
      : [`${what}: a problem`]),
    ...(items.every(({ problems: own, positions }) => own.length > 0 || positions.length > 0)
      ? []
      : [`${what}: an item of nothing`]),
  ];
}

describe('a file that was damaged', () => {
  const corpus = damagedFiles(20_260_504);

  it('is refused, or gives clean places and says what is wrong with the rest', () => {
    expect(corpus.length).toBeGreaterThanOrEqual(200);
    expect(corpus.flatMap(faultsOf)).toEqual([]);
  });

  it('is refused often enough that the damage shows', () => {
    const refused = corpus.filter(({ what, bytes }) => !readImport({ name: what, bytes }).ok);
    expect(refused.length).toBeGreaterThan(corpus.length / 4);
  });
});

describe('a place that is none', () => {
  it('never becomes a place', () => {
    expect(nastyPlaces().flatMap(faultsOf)).toEqual([]);
    const taken = nastyPlaces().flatMap(({ what, bytes }) => {
      const read = readImport({ name: what, bytes });
      return read.ok ? read.value.items.flatMap(({ positions }) => positions.map(({ lat }) => `${what}: ${lat}`)) : [];
    });
    // Minus nought and a number below the least double are nought; a JSON text may not hold a bare word.
    expect(taken).toEqual([
      'GPX at -0: 0',
      'KML at -0: 0',
      'CSV at -0: 0',
      'GeoJSON at -0: 0',
      'GPX at 1e-400: 0',
      'KML at 1e-400: 0',
      'CSV at 1e-400: 0',
      'GeoJSON at 1e-400: 0',
    ]);
  });
});

describe('a name out of a file', () => {
  it('is one line of text without control and direction marks, whatever the file says', () => {
    expect(nastyNames().flatMap(faultsOf)).toEqual([]);
    expect(nastyNames().every(({ what, bytes }) => readImport({ name: what, bytes }).ok)).toBe(true);
  });

  it('keeps markup as text, and says so where marks were taken out of it', () => {
    const [first, turned] = previewOf('name,lat,lon\n<b>x</b>,1,2\n\u202egnp.exe,1,2\n').items;
    expect(first).toMatchObject({ name: '<b>x</b>', remarks: [] });
    expect(turned).toMatchObject({ name: 'gnp.exe', remarks: [{ code: 'name-cleaned', found: '"\\u202egnp.exe"' }] });
  });
});

describe('XML made to harm', () => {
  const bomb = `<!DOCTYPE gpx [<!ENTITY a "ha">${Array.from({ length: 30 }, (_, k) => `<!ENTITY a${k} "${'&a;'.repeat(10)}">`).join('')}]>`;

  it.each([
    ['entities that grow', `${bomb}<gpx>&a29;</gpx>`],
    ['an entity out of a file', '<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]><gpx>&x;</gpx>'],
    ['a document type from elsewhere', '<!DOCTYPE kml SYSTEM "http://example.invalid/kml.dtd"><kml/>'],
  ])('is refused by name: %s', (_, text) => {
    expect(refusalOf(text)).toMatchObject({ code: 'document-type', found: 'a document type (DOCTYPE)' });
  });

  it('has no entities but the five of XML', () => {
    expect(refusalOf(gpxOf('<wpt lat="1" lon="1"><name>&eacute;</name></wpt>'))).toMatchObject({ code: 'not-xml' });
    expect(placesIn(previewOf(gpxOf('<wpt lat="1" lon="2"><name>&lt;&amp;&#x41;</name></wpt>')))).toEqual([
      ['point', '<&A', [[2, 1]]],
    ]);
  });

  it('is refused beyond its depth, its number of elements and of places', () => {
    expect(refusalOf(`<gpx>${'<a>'.repeat(1_000_000)}`)).toMatchObject({ code: 'too-deep' });
    expect(refusalOf(kmlOf('<Folder>'.repeat(200) + '</Folder>'.repeat(200)))).toMatchObject({ code: 'too-deep' });
    expect(refusalOf(gpxOf('<a/>'.repeat(importLimits.elements)))).toMatchObject({ code: 'too-large' });
    const places = '1,1 '.repeat(importLimits.positions + 1);
    const line = kmlOf(`<Placemark><LineString><coordinates>${places}</coordinates></LineString></Placemark>`);
    expect(refusalOf(line)).toMatchObject({ code: 'too-many', found: `more than ${importLimits.positions} positions` });
    const points = gpxOf('<wpt lat="1" lon="1"/>'.repeat(importLimits.items + 1));
    expect(refusalOf(points)).toMatchObject({
      code: 'too-many',
      found: `more than ${importLimits.items} points and lines`,
    });
  });

  it('takes as many places as are allowed', () => {
    const places = Array.from({ length: importLimits.positions }, (_, k) => `<trkpt lat="${k / 2000}" lon="1"/>`);
    const preview = previewOf(gpxOf(`<trk><trkseg>${places.join('')}</trkseg></trk>`));
    expect(preview.items[0]?.positions).toHaveLength(importLimits.positions);
  });
});

describe('JSON and tables made to harm', () => {
  it.each([
    ['lists a million deep', `{"type":"Point","coordinates":${'['.repeat(1_000_000)}`, 'too-deep'],
    ['collections in collections', '{"type":"GeometryCollection","geometries":['.repeat(10_000), 'too-deep'],
    ['a million places', `{"type":"LineString","coordinates":[${'[0,0],'.repeat(1_000_000)}[0,0]]}`, 'too-many'],
    ['a prototype', '{"type":"Point","coordinates":[1,2],"__proto__":{"x":1}}', 'unknown-key'],
    ['two places in one', '{"type":"Point","coordinates":[1,2],"coordinates":[3,4]}', 'repeated-key'],
    ['a row of a million fields', `lat,lon\n${','.repeat(1_000_000)}\n`, 'too-many'],
    ['a quote that is never closed', `lat,lon\n"${'\n'.repeat(1_000_000)}`, 'not-csv'],
  ])('is refused: %s', (_, text, code) => {
    expect(refusalOf(text)).toMatchObject({ code });
  });
});

describe('the encoding of a file', () => {
  const text = gpxOf('<wpt lat="1" lon="2"><name>Tränke</name></wpt>');
  const latin = (given: string) => Uint8Array.from(given, (letter) => letter.charCodeAt(0));
  const utf16 = (given: string, big: boolean) =>
    Uint8Array.from(
      [0xfeff, ...Array.from(given, (letter) => letter.charCodeAt(0))].flatMap((code) => {
        const pair = [code & 255, code >> 8];
        return big ? pair.reverse() : pair;
      }),
    );

  it.each([
    ['UTF-8', bytesOf(text)],
    ['UTF-8 with a byte order mark', bytesOf(`\uFEFF${text}`)],
    ['UTF-16, low byte first', utf16(text, false)],
    ['UTF-16, high byte first', utf16(text, true)],
    ['Latin-1 as its declaration says', latin(text.replace('?>', ' encoding="ISO-8859-1"?>'))],
  ])('may be %s', (_, bytes) => {
    expect(placesIn(previewOf(bytes))).toEqual([['point', 'Tränke', [[2, 1]]]]);
  });

  it.each([
    ['Latin-1 that says it is UTF-8', latin(text)],
    ['an encoding unknown here', bytesOf(text.replace('?>', ' encoding="EBCDIC-CP-US"?>'))],
    ['a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0xff, 0xd8)],
  ])('is refused where it is %s', (_, bytes) => {
    expect(refusalOf(bytes)).toMatchObject({ code: 'wrong-encoding' });
  });

  it('a file of more bytes than are read, of none, or of bytes that are no text is refused', () => {
    expect(refusalOf(new Uint8Array(importLimits.bytes + 1))).toMatchObject({ code: 'too-large' });
    expect(refusalOf(new Uint8Array())).toMatchObject({ code: 'empty' });
    expect(refusalOf(Uint8Array.of(73, 73, 42, 0, 8, 0, 0, 0))).toMatchObject({ code: 'wrong-type' });
    expect(refusalOf('<html><body/></html>')).toMatchObject({ code: 'wrong-type', found: 'XML of "html"' });
  });
});
