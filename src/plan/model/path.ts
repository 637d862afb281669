/** A JSON path as people read it: `features[3].properties.pipe`. */
export function pathOf(keys: readonly PropertyKey[], base = ''): string {
  return keys.reduce<string>((path, key) => {
    if (typeof key === 'number') return `${path}[${key}]`;
    const name = String(key);
    const plain = /^[A-Za-z_][A-Za-z0-9_]{0,60}$/.test(name);
    if (!plain) return `${path}[${shortened(JSON.stringify(name))}]`;
    return path === '' ? name : `${path}.${name}`;
  }, base);
}

/** What was found, in a few characters. */
export function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return shortened(JSON.stringify(value.slice(0, 100)));
  return shortened(String(value));
}

function shortened(text: string): string {
  return text.length <= 64 ? text : `${text.slice(0, 60)}…`;
}
