import type { OwnNetwork } from '../../terrain/bytes/address-network.ts';
import type { Problem } from '../../units/outcome.ts';

/** A problem as one sentence: where, what was found and what was expected. */
export function problemSentence(problem: Problem): string {
  const meant = MEANT.find(({ found }) => found.test(problem.found));
  if (meant !== undefined) return meant.words;
  const sentence = `found ${problem.found}; expected ${problem.expected}.`;
  return problem.path === '' ? sentence.replace('f', 'F') : `${placeInWords(problem.path)}: ${sentence}`;
}

/** Files that are often opened in the wrong place, by what they begin with, and what to do with them. */
const MEANT: readonly { readonly found: RegExp; readonly words: string }[] = [
  {
    found: /^"(?:II\*|MM\\u0000\*|II\+|MM\\u0000\+)/,
    words: 'This is a TIFF, not a plan: open it above the map, as an elevation file or as a picture.',
  },
  {
    found: /^"PK/,
    words: 'This is a zip archive or a KMZ file, not a plan: unpack it, or import it under “Import, export, print”.',
  },
  {
    found: /^"<(?:\?xml|gpx|kml)/i,
    words: 'This is a GPX or KML file, not a plan: import it under “Import, export, print”.',
  },
  { found: /^"%PDF/, words: 'This is a PDF, not a plan: look for the file ending in .geojson beside it.' },
  { found: /^"(?:\\u00ff\\u00d8|\\u0089PNG)/, words: 'This is a picture, not a plan: open it above the map.' },
];

/** A place in a plan file as one would say it: the fourth point or line, the second measurement, with what is wrong of it. */
function placeInWords(path: string): string {
  const [, list, index, rest = ''] = /^(?:rillwright\.)?(\w+)\[(\d+)\](.*)$/.exec(path) ?? [];
  const keys = (text: string) =>
    text
      .replace(/^\.?(?:properties\.|geometry\.)?/, '')
      .replace(/_(?:m|mm|L|s|C|kPa|L_per_min|L_per_day)(?=$|[.[])/g, '')
      .replaceAll(/[_.]/g, ' ')
      .replaceAll(/\[(\d+)\]/g, (_, at: string) => ` ${Number(at) + 1}`)
      .trim();
  if (list !== undefined && index !== undefined) {
    const what = list === 'features' ? 'Point or line' : `Entry of “${keys(list)}”, number`;
    const key = keys(rest);
    return `${what} ${Number(index) + 1}${key === '' ? '' : `, “${key}”`}`;
  }
  const segment = path.replace(/\btrkseg\b/g, 'track').replace(/\btrkpt\b/g, 'point');
  return segment.startsWith('rillwright.') ? `“${keys(segment.slice('rillwright.'.length))}”` : segment;
}

/** Units as the keys of a plan file end with them. */
const FILE_UNITS: Readonly<Record<string, string>> = {
  mm: 'mm',
  m: 'm',
  L: 'litres',
  L_per_min: 'L/min',
  L_per_day: 'L/day',
  kPa: 'kPa',
  C: '°C',
  s: 'seconds',
};

/** The first of several problems as the field says it that caused them: without its place in a file. Null when there is none. */
export function firstProblem(problems: readonly Problem[]): string | null {
  const [first] = problems;
  if (first === undefined) return null;
  const unit = Object.keys(FILE_UNITS).find((ending) => first.path.replace(/\[\d+\]$/, '').endsWith(`_${ending}`));
  const inUnit = unit === undefined ? '' : ` (in ${FILE_UNITS[unit]})`;
  return `Found ${first.found}; expected ${first.expected}${inUnit}.`;
}

/** Why a file cannot be used, in one sentence: in words of its own where it lies at an address. */
export function refusalSentence(problem: Problem): string {
  const words = ADDRESS_WORDS[problem.code] ?? PICTURE_WORDS[problem.code];
  return words?.(problem) ?? problemSentence(problem);
}

/** Why a file at an address cannot be used; a server often sends something else than a file. */
export function addressRefusal(problem: Problem): string {
  if (problem.code === 'other-format') {
    return `${nameIn(problem)} is no elevation file that is read here: it is ${problem.found}. Servers that ask for a sign-in send a page instead of the file.`;
  }
  if (problem.code !== 'not-a-tiff') return refusalSentence(problem);
  return `${nameIn(problem)} is no elevation file: its first bytes are ${problem.found}, which begin neither a GeoTIFF nor an ASCII grid. Servers that ask for a sign-in send a page instead of the file.`;
}

/** A path may go on into the file behind its name. */
function nameIn({ path }: Problem): string {
  return path.split(': ')[0] || path;
}

const PICTURE_WORDS: Readonly<Record<string, (problem: Problem) => string>> = {
  'picture-half': ({ expected }) => `Still missing: ${expected}. What is here is kept until that comes.`,
  'picture-files': ({ found, expected }) => `Found ${found}; a picture is opened from ${expected}.`,
  'picture-size': ({ found, expected }) => `It has ${found}, more than fits into the memory: ${expected}.`,
};

const ADDRESS_WORDS: Readonly<Record<string, (problem: Problem) => string>> = {
  address: ({ path }) => `“${path}” is not an address that can be asked: it has to start with https://.`,
  'address-of-disk': ({ path }) =>
    `“${path}” lies on this machine, where a page may not look by itself: choose the file from disk.`,
  'address-in-the-clear': ({ path }) =>
    `“${path}” would be asked in the clear (http), which this page does only with this machine: try https:// in its place.`,
  'address-credentials': ({ path }) =>
    `“${path}” holds a name or a password, which browsers do not send along: download the file and open it from disk.`,
  'address-long': ({ found, expected }) => `An address of ${found} is too long to be kept: ${expected}.`,
  'address-twice': ({ path }) => `“${path}” stands there twice.`,
  'address-many': ({ found, expected }) => `Found ${found}; at most ${expected} can be opened together.`,
  'address-silent': (problem) =>
    `Nobody answered for ${nameIn(problem)} (${problem.found}): check the address and the connection.`,
  'address-not-shared': (problem) =>
    `The server of ${nameIn(problem)} answers, but does not let other pages read its files (it sends no Access-Control-Allow-Origin): download the file and open it from disk.`,
  'address-status': (problem) => statusWords(problem),
  'address-no-ranges': (problem) =>
    `The server of ${nameIn(problem)} sends only whole files, not the parts that are needed (no range requests): download the file and open it from disk.`,
  'address-size': (problem) =>
    `The server of ${nameIn(problem)} does not show how large the file is (no Content-Range, no Content-Length): download the file and open it from disk.`,
  'address-short': (problem) =>
    `The server of ${nameIn(problem)} sent ${problem.found} instead of ${problem.expected}: try again, or download the file and open it from disk.`,
  'address-changed': (problem) =>
    `${nameIn(problem)} was replaced by another version while it was being read: open it again.`,
};

function statusWords(problem: Problem): string {
  const name = nameIn(problem);
  switch (problem.found) {
    case 'status 404':
    case 'status 410':
      return `There is no ${name} at this address (${problem.found}).`;
    case 'status 401':
    case 'status 403':
      return `The server does not give out ${name} (${problem.found}): it may ask for a sign-in or a key.`;
    case 'status 416':
      return `${name} is empty: its server has no first byte to send (${problem.found}).`;
    default:
      return `The server answered ${problem.found} instead of ${name}: try again later.`;
  }
}

const NETWORKS: Readonly<Record<OwnNetwork, string>> = {
  'this-machine': 'this machine itself',
  'own-network': 'an address inside the network you are in',
  'this-link': 'an address that only your own cable or radio reaches',
};

/** Where an address lies that is not out in the public network. */
export function networkWords(network: OwnNetwork): string {
  return NETWORKS[network];
}
