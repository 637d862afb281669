/** Whether a text is the address of a file rather than its name. */
export function isAddress(text: string): boolean {
  return /^https?:\/\/\S+$/i.test(text);
}

/** Name of the file at the end of an http or https address, the address itself where it ends without one; null for any other text. */
export function addressName(address: string): string | null {
  const match = /^https?:\/\/[^/?#\s]+(\/[^?#\s]*)?/i.exec(address);
  if (match === null) return null;
  return match[1]?.split('/').at(-1) || address;
}

/** An address as it may be shown and printed: without what stands behind the question mark, which may be a key. */
export function shownAddress(address: string): string {
  return address.replace(/[?#].*$/s, '');
}
