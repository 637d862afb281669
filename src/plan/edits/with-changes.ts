/** A part with some of its values changed; the same part when none of them is new. */
export function withChanges<Part extends object>(part: Part, changes: Partial<Part>): Part {
  const isNew = Object.entries(changes).some(([key, value]) => Reflect.get(part, key) !== value);
  return isNew ? { ...part, ...changes } : part;
}

/** The list with one entry changed; the same list when the entry stays as it is. */
export function withEntry<Part>(list: readonly Part[], old: Part, next: Part): readonly Part[] {
  return old === next ? list : list.map((entry) => (entry === old ? next : entry));
}
