import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SourceFile } from './imports-of.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Every TypeScript file of `src`. */
export function sourceFiles(): readonly SourceFile[] {
  return readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .map((name) => `src/${name.replaceAll('\\', '/')}`)
    .filter((path) => /\.tsx?$/.test(path))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') }));
}

/** The folders that the compiler worlds name, such as `src/plan`. */
export function compiledFolders(): ReadonlySet<string> {
  const worlds = readdirSync(root).filter((name) => /^tsconfig\.(?!base\.)[a-z]+\.json$/.test(name));
  return new Set(worlds.flatMap((name): string[] => JSON.parse(readFileSync(join(root, name), 'utf8')).include));
}
