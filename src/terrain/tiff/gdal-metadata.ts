/** Items of GDAL's metadata tag: name, band (null for the whole file) and text. Only flat items are read. */
export class GdalMetadata {
  readonly #items: ReadonlyMap<string, string>;

  constructor(items: ReadonlyMap<string, string>) {
    this.#items = items;
  }

  /** The text of an item of a band, counted from 0. */
  item(name: string, band: number): string | undefined {
    return this.#items.get(`${band}/${name}`);
  }

  number(name: string, band: number): number | undefined {
    const text = this.item(name, band);
    return text === undefined ? undefined : Number(text);
  }
}

const ITEM = /<Item\s([^<>]*)>([^<]*)<\/Item>/g;
const ATTRIBUTE = /(\w+)\s*=\s*"([^"]*)"/g;
const MOST_ITEMS = 10_000;
/** Longer lists of attributes are not read: no writer makes them, and searching them could take for ever. */
const MOST_ATTRIBUTES = 500;

/**
 * Reads the items out of the tag's text. No markup language is parsed: there are no entities but the five plain ones, and
 * nothing outside the text is ever looked up.
 */
export function readGdalMetadata(text: string | undefined): GdalMetadata {
  const items = new Map<string, string>();
  for (const [, attributes = '', body = ''] of (text ?? '').matchAll(ITEM)) {
    if (items.size >= MOST_ITEMS) break;
    if (attributes.length > MOST_ATTRIBUTES) continue;
    const named = new Map<string, string>();
    for (const [, name = '', value = ''] of attributes.matchAll(ATTRIBUTE)) named.set(name, value);
    const name = named.get('name');
    if (name === undefined || named.has('domain')) continue;
    items.set(`${named.get('sample') ?? ''}/${nameOf(name, named.get('role'))}`, plainText(body));
  }
  return new GdalMetadata(items);
}

/** Scale, offset, unit and description carry a role; the role names them whatever the item is called. */
function nameOf(name: string, role: string | undefined): string {
  const roles: Readonly<Record<string, string>> = {
    scale: 'SCALE',
    offset: 'OFFSET',
    unittype: 'UNITTYPE',
    description: 'DESCRIPTION',
  };
  return (role === undefined ? undefined : roles[role]) ?? name;
}

function plainText(text: string): string {
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&apos;', "'")
    .replaceAll('&amp;', '&');
}
