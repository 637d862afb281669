import { seeded } from '../terrain/hostile-corpus.ts';

export interface BrokenImport {
  readonly what: string;
  readonly bytes: Uint8Array;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const gpx = (inside: string): string =>
  `<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">${inside}</gpx>`;
const kml = (inside: string): string =>
  `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inside}</Document></kml>`;
const features = (inside: string): string => `{"type":"FeatureCollection","features":[${inside}]}`;
const point = (coordinates: string, name = 'A'): string =>
  `{"type":"Feature","properties":{"name":${JSON.stringify(name)}},"geometry":{"type":"Point","coordinates":${coordinates}}}`;

/** Twenty-six files as they come out of broken devices and out of hands that mean harm; the same for the same seed. */
export function brokenImports(seed: number): readonly BrokenImport[] {
  const random = seeded(seed);
  const upTo = (most: number) => Math.floor(random() * most);
  const many = (count: number, make: (k: number) => string) =>
    Array.from({ length: count }, (_, k) => make(k)).join('');
  const place = () => `lat="${(38 + random() / 100).toFixed(6)}" lon="${(-40 + random() / 100).toFixed(6)}"`;
  const noise = Uint8Array.from({ length: 5000 }, () => upTo(256));
  const texts: readonly (readonly [string, string])[] = [
    ['a track of many points', gpx(`<trk><trkseg>${many(50_000, () => `<trkpt ${place()}/>`)}</trkseg></trk>`)],
    ['many tracks', gpx(many(3000, (k) => `<trk><name>${k}</name><trkseg><trkpt ${place()}/></trkseg></trk>`))],
    ['elements nested deep', gpx('<extensions>'.repeat(20_000))],
    ['elements nested deep and closed', gpx('<a>'.repeat(5000) + '</a>'.repeat(5000))],
    ['entities that grow', `<!DOCTYPE g [<!ENTITY a "x"><!ENTITY b "${'&a;'.repeat(1000)}">]>${gpx('&b;')}`],
    [
      'an entity from a file',
      `<!DOCTYPE g [<!ENTITY a SYSTEM "file:///etc/hosts">]>${gpx('<wpt lat="1" lon="1"><name>&a;</name></wpt>')}`,
    ],
    ['a file that breaks off in a tag', gpx(`<wpt ${place()}><name>A</name>`).slice(0, -20)],
    ['places off the earth', gpx(many(50, () => `<wpt lat="${90 + upTo(1000)}" lon="${upTo(1000) - 500}"/>`))],
    ['places that are no numbers', gpx('<wpt lat="north" lon=""/><wpt lat="NaN" lon="Infinity"/>')],
    ['a link to elsewhere', kml('<NetworkLink><Link><href>http://example.invalid/x.kml</href></Link></NetworkLink>')],
    ['places in a row without end', kml(`<Placemark><LineString><coordinates>${'1,2 '.repeat(60_000)}`)],
    [
      'commas without numbers',
      kml(`<Placemark><Point><coordinates>${','.repeat(50_000)}</coordinates></Point></Placemark>`),
    ],
    [
      'a place of a hundred numbers',
      kml(`<Placemark><Point><coordinates>${'1,'.repeat(100)}</coordinates></Point></Placemark>`),
    ],
    [
      'names that turn the text round',
      kml(
        many(
          40,
          (k) => `<Placemark><name>\u202e${k}\u2066</name><Point><coordinates>-40,38</coordinates></Point></Placemark>`,
        ),
      ),
    ],
    ['collections in collections', `${'{"type":"GeometryCollection","geometries":['.repeat(4000)}${']}'.repeat(4000)}`],
    ['a list nested deep', `{"type":"Point","coordinates":${'['.repeat(100_000)}`],
    [
      'features of nothing',
      features(many(500, (k) => `${k ? ',' : ''}{"type":"Feature","geometry":null,"properties":null}`)),
    ],
    [
      'numbers beyond all numbers',
      features(`${point('[1e400,1]')},${point('[1,-1e308]')},${point('[1e-400,5e-324]')}`),
    ],
    ['a prototype', `{"__proto__":{"x":1},"type":"FeatureCollection","features":[${point('[-40,38]', '__proto__')}]}`],
    [
      'a polygon of one corner',
      features('{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[1,2]]]}}'),
    ],
    ['formulas for names', `name,lat,lon\n${many(30, (k) => `"=cmd|' /C x'!A${k}",38.0${k},-40\n`)}`],
    ['a quote that is never closed', `name,lat,lon\n"A,38,-40\n${many(2000, (k) => `B${k},38,-40\n`)}`],
    ['a row of very many columns', `name,lat,lon\n${'1,'.repeat(100_000)}\n`],
    ['rows of unlike lengths', `name;lat;lon\n${many(300, (k) => `${';'.repeat(k % 9)}${k}\n`)}`],
  ];
  return [
    ...texts.map(([what, text]) => ({ what, bytes: utf8(text) })),
    { what: 'noise', bytes: noise },
    { what: 'half of a letter of two bytes', bytes: Uint8Array.of(0xff, 0xfe, 0x3c) },
  ];
}
