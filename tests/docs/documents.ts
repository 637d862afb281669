import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));

export interface Document {
  /** Path from the project's folder. */
  readonly path: string;
  readonly text: string;
}

/** Every document of the project. */
export function documents(): readonly Document[] {
  const inDocs = readdirSync(`${root}docs`).filter((name) => name.endsWith('.md'));
  return ['README.md', 'DEVELOPERS.md', ...inDocs.map((name) => `docs/${name}`)].map((path) => ({
    path,
    text: readFileSync(root + path, 'utf8'),
  }));
}

export function exists(path: string): boolean {
  return existsSync(root + path);
}

/** Everything between single backticks, outside blocks of code. */
export function quoted(text: string): readonly string[] {
  return [...withoutBlocks(text).matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '');
}

export function withoutBlocks(text: string): string {
  return text.replace(/^```[\s\S]*?^```/gm, '');
}
