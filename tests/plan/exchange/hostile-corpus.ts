import { bytesOf, gpxOf, kmlOf, sample } from './read-text.ts';

export interface Hostile {
  readonly what: string;
  readonly bytes: Uint8Array;
}

/** Random numbers from 0 to 1 that are the same at every run: mulberry32, T. Ettinger, public domain, 2017 (from memory). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const GEOJSON = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    { type: 'Feature', geometry: { type: 'Point', coordinates: [-40, 38, 9] }, properties: { name: 'Spring' } },
    {
      type: 'Feature',
      geometry: {
        type: 'LineString',
        coordinates: [
          [-40, 38],
          [-39, 38],
        ],
      },
      properties: null,
    },
  ],
});
const CSV = 'name;lat;lon;ele\nSpring;38,5;-40,25;12\n"Tank ""A""";38.6;-40.2;\n';

const sound = (): readonly (readonly [string, Uint8Array])[] => [
  ['GPX', new Uint8Array(sample('field-day.gpx'))],
  ['KML', new Uint8Array(sample('farm.kml'))],
  ['GeoJSON', bytesOf(GEOJSON)],
  ['CSV', bytesOf(CSV)],
];

/** Texts that stand for what a hand would never write, put into any field. */
const NASTY = [
  'NaN',
  'Infinity',
  '-Infinity',
  '1e999',
  '-0',
  '1e-400',
  '181',
  '-90.0000001',
  '٣٨',
  '3 8',
  '0x1F',
  '1_000',
  '9'.repeat(5000),
  '',
];

/** Files cut short, with bits turned and with bytes moved: about fifty of each format. */
export function damagedFiles(seed: number): readonly Hostile[] {
  const random = seeded(seed);
  const upTo = (most: number) => Math.floor(random() * most);
  return sound().flatMap(([format, bytes]) => [
    ...Array.from({ length: 20 }, (_, k) => ({
      what: `${format} cut short (${k})`,
      bytes: bytes.slice(0, upTo(bytes.length)),
    })),
    ...Array.from({ length: 20 }, (_, k) => {
      const turned = bytes.slice();
      for (let bit = 0; bit < 1 + k / 2; bit += 1) {
        const at = upTo(turned.length);
        turned[at] = (turned[at] ?? 0) ^ (1 << upTo(8));
      }
      return { what: `${format} with bits turned (${k})`, bytes: turned };
    }),
    ...Array.from({ length: 10 }, (_, k) => {
      const from = upTo(bytes.length);
      const to = from + upTo(bytes.length - from);
      const moved = Uint8Array.of(...bytes.slice(to), ...bytes.slice(from, to), ...bytes.slice(0, from));
      return { what: `${format} with its parts moved (${k})`, bytes: moved };
    }),
  ]);
}

/** Every nasty text as a latitude of each format. */
export function nastyPlaces(): readonly Hostile[] {
  return NASTY.flatMap((text) => [
    { what: `GPX at ${text.slice(0, 20)}`, bytes: bytesOf(gpxOf(`<wpt lat="${text}" lon="1"/>`)) },
    { what: `KML at ${text.slice(0, 20)}`, bytes: bytesOf(kmlOf(placemark('A', `1,${text}`))) },
    { what: `CSV at ${text.slice(0, 20)}`, bytes: bytesOf(`name,lat,lon\nA,${text},1\n`) },
    { what: `GeoJSON at ${text.slice(0, 20)}`, bytes: bytesOf(`{"type":"Point","coordinates":[1,${text}]}`) },
  ]);
}

export function placemark(name: string, coordinates: string): string {
  return `<Placemark><name>${name}</name><Point><coordinates>${coordinates}</coordinates></Point></Placemark>`;
}

/** Names that would be markup, would turn the direction of a text, or would be no text at all. */
export const NASTY_NAMES = [
  '<img src=x onerror=alert(1)>',
  '"><script>alert(1)</script>',
  '\u202egnp.exe',
  'a\u2066b\u2069c\u200fd\u061ce',
  '=HYPERLINK("http://example.invalid")',
  `long ${'n'.repeat(100_000)}`,
  'two\nlines\tand\u2028more',
  '__proto__',
  'constructor',
  '\u0085next\u009fcontrol',
  '𝒯'.repeat(150),
];

/** Every nasty name as the name of a point in each format that can hold it. */
export function nastyNames(): readonly Hostile[] {
  return NASTY_NAMES.flatMap((name) => {
    const escaped = name.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
    const properties = { name };
    const geojson = { type: 'Feature', geometry: { type: 'Point', coordinates: [1, 2] }, properties };
    const row = `"${name.replaceAll('"', '""')}",2,1\n`;
    return [
      { what: 'GPX', bytes: bytesOf(gpxOf(`<wpt lat="2" lon="1"><name>${escaped}</name></wpt>`)) },
      { what: 'KML', bytes: bytesOf(kmlOf(placemark(escaped, '1,2'))) },
      { what: 'GeoJSON', bytes: bytesOf(JSON.stringify(geojson)) },
      { what: 'CSV', bytes: bytesOf(`name,lat,lon\n${row}`) },
    ];
  });
}
