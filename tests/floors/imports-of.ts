import { parseSync } from 'oxc-parser';

export interface SourceFile {
  /** Path from the project's folder, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

export interface ImportsOf {
  /** What the file names in import, export … from, import(), import types and new URL(…, import.meta.url). */
  readonly requests: readonly string[];
  /** Why the list may be incomplete. */
  readonly faults: readonly string[];
}

/** Everything a source file imports, types included. */
export function importsOf({ path, text }: SourceFile): ImportsOf {
  const { program, errors } = parseSync(path, text);
  const requests: string[] = [];
  const faults = errors.map(({ message }) => `cannot be parsed: ${message}`);
  walk(program, (node) => {
    const source = sourceOf(node);
    if (source === undefined) return;
    const value = literal(source);
    if (value === null) faults.push(`${String(node.type)} of something that is not written out`);
    else requests.push(value);
  });
  return { requests, faults };
}

type AstNode = Readonly<Record<string, unknown>>;

/** The node that names a module, for the kinds of node that do; undefined for all others. */
function sourceOf(node: AstNode): unknown {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportAllDeclaration':
    case 'ImportExpression':
    case 'TSImportType':
      return node.source;
    case 'ExportNamedDeclaration':
      return node.source ?? undefined;
    case 'TSExternalModuleReference':
      return node.expression;
    case 'NewExpression':
      return moduleAddress(node);
    default:
      return undefined;
  }
}

/** The first argument of `new URL('…', import.meta.url)`: a worker or an asset that belongs to the program. */
function moduleAddress(node: AstNode): unknown {
  const [first, second] = Array.isArray(node.arguments) ? node.arguments : [];
  const isUrl = isNode(node.callee) && node.callee.name === 'URL';
  const isHere = isNode(second) && isNode(second.object) && second.object.type === 'MetaProperty';
  return isUrl && isHere ? first : undefined;
}

function literal(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === 'TSLiteralType') return literal(node.literal);
  return typeof node.value === 'string' ? node.value : null;
}

function walk(value: unknown, visit: (node: AstNode) => void): void {
  if (Array.isArray(value)) for (const item of value) walk(item, visit);
  if (!isNode(value)) return;
  if (typeof value.type === 'string') visit(value);
  for (const child of Object.values(value)) if (typeof child === 'object') walk(child, visit);
}

function isNode(value: unknown): value is AstNode {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
