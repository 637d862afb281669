/** Name and version of this program, as reports state them. */
export const PROGRAM_ABOUT = { name: 'Rillwright', version: '0.1.0' } as const;

const LONGEST = 80;
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** A name that every file system takes, made from one that a user typed; `fallback` when nothing of it is left. */
export function safeFileName(name: string, fallback: string): string {
  const plain = name
    .normalize('NFKC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const short = [...plain].slice(0, LONGEST).join('').replace(/-+$/, '');
  return short === '' || RESERVED.test(short) ? fallback : short;
}
