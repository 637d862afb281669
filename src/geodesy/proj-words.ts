import type { Ratio } from '../units/quantity.ts';

/** Projection methods that are computed here. `longlat` means plain longitude and latitude. */
const METHODS: ReadonlySet<string> = new Set(
  'longlat utm tmerc merc lcc aea laea stere sterea somerc omerc krovak cass cea eqc poly nzmg aeqd eqdc bonne'.split(
    ' ',
  ),
);

/** Ellipsoids that the projection library knows by these names; it takes any other name silently for WGS 84. */
const ELLIPSOIDS: ReadonlySet<string> = new Set(
  (
    'MERIT SGS85 GRS80 IAU76 airy APL4 NWL9D mod_airy andrae aust_SA GRS67 bessel bess_nam clrk66 clrk80 clrk80ign clrk58 ' +
    'CPM delmbr engelis evrst30 evrst48 evrst56 evrst69 evrstSS fschr60 fschr60m fschr68 helmert hough intl kaula lerch ' +
    'mprts new_intl plessis krass SEasia walbeck WGS60 WGS66 WGS7 WGS84 sphere'
  ).split(' '),
);

/** Metres in a unit of length. Source: PROJ 9.1.1, `proj -lu`. */
const UNITS: Readonly<Record<string, Ratio>> = {
  m: 1,
  km: 1000,
  ft: 0.3048,
  'us-ft': 1200 / 3937,
  'ind-yd': 0.91439523,
  'ind-ft': 0.30479841,
  link: 0.201168,
  ch: 20.1168,
  yd: 0.9144,
};

export type ProjWords = ReadonlyMap<string, string>;

/** The words of a proj string: `+proj=utm +south` gives proj → utm, south → ''. */
export function readProjWords(definition: string): ProjWords {
  const words = definition.trim().split(/\s+/);
  return new Map(
    words.map((word) => {
      const [key = '', value = ''] = word.replace(/^\+/, '').split('=', 2);
      return [key, value];
    }),
  );
}

export const isGeographic = (words: ProjWords): boolean => words.get('proj') === 'longlat';

/** Metres in one unit of the projected coordinates. */
export function metresPerUnit(words: ProjWords): Ratio {
  const given = words.get('to_meter');
  return given === undefined ? (UNITS[words.get('units') ?? 'm'] ?? 1) : Number(given);
}

/** The first word that would be computed wrongly or not at all, with what is possible; null when all is well. */
export function unusableWord(words: ProjWords): { readonly found: string; readonly expected: string } | null {
  const strange = [...words.keys()].find((key) => !KNOWN_WORDS.has(key));
  if (strange !== undefined) return { found: `+${strange}`, expected: 'words of a proj string that are computed here' };
  const rule = rules.find(({ key, holds }) => !holds(words.get(key), words));
  return rule ? { found: `+${rule.key}=${words.get(rule.key) ?? ''}`, expected: rule.expected } : null;
}

/** Words that say nothing about the place of a point, and words that are computed; any other would be dropped silently. */
const KNOWN_WORDS: ReadonlySet<string> = new Set(
  (
    'proj datum ellps a b rf R towgs84 nadgrids pm units to_meter axis zone south lat_0 lat_1 lat_2 lat_ts lon_0 lonc k k_0 ' +
    'x_0 y_0 alpha gamma no_uoff no_off no_defs type wktext vunits geoidgrids vto_meter over'
  ).split(' '),
);

interface Rule {
  readonly key: string;
  readonly expected: string;
  holds(value: string | undefined, words: ProjWords): boolean;
}

const rules: readonly Rule[] = [
  { key: 'proj', expected: `one of ${[...METHODS].join(', ')}`, holds: (v) => v !== undefined && METHODS.has(v) },
  { key: 'ellps', expected: 'a known ellipsoid, or +a and +rf', holds: (v) => v === undefined || ELLIPSOIDS.has(v) },
  {
    key: 'datum',
    expected: 'WGS84, NAD83, or +ellps and +towgs84',
    holds: (v) => v === undefined || v === 'WGS84' || v === 'NAD83',
  },
  { key: 'units', expected: `one of ${Object.keys(UNITS).join(', ')}`, holds: (v) => v === undefined || v in UNITS },
  { key: 'to_meter', expected: 'metres per unit', holds: (v) => v === undefined || Number(v) > 0 },
  {
    key: 'axis',
    expected: 'coordinates that run east and north, or west and south',
    holds: (v) => v === undefined || v.startsWith('en') || v === 'wsu',
  },
  { key: 'nadgrids', expected: 'a datum shift without a grid', holds: (v) => v === undefined || v === '@null' },
];
