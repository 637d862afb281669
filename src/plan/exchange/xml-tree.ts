import { SaxesParser, type SaxesTagNS } from 'saxes';
import { shownText } from './clean-text.ts';
import { importFault, importLimits } from './import-preview.ts';

export interface XmlElement {
  /** Name without its prefix. */
  readonly name: string;
  /** Address of its namespace; empty for none. */
  readonly space: string;
  /** Attributes without a namespace. */
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** Its own text, without that of its children. */
  readonly text: string;
  readonly line: number;
}

interface GrowingElement extends XmlElement {
  readonly children: GrowingElement[];
  text: string;
}

/** How much text the parser is handed at a time, so that it stops soon after a limit. */
const PIECE = 65_536;

/**
 * Reads XML 1.0 with namespaces into a tree. A document type is refused by name, so there are no entities but the five of
 * XML itself; nothing is ever fetched. Depth and number of elements are limited.
 */
export function readXml(text: string): XmlElement {
  const parser = new SaxesParser({ xmlns: true, position: true });
  const grower = new TreeGrower(() => parser.line);
  parser.on('doctype', () =>
    importFault('document-type', `line ${parser.line}`, 'a document type (DOCTYPE)', 'none: it may define entities'),
  );
  parser.on('error', (error) =>
    importFault('not-xml', `line ${parser.line}`, shownText(error.message.replace(/^[\d:]+ /, '')), 'well-formed XML'),
  );
  parser.on('opentagstart', () => grower.countOne());
  parser.on('opentag', (tag) => grower.open(tag));
  parser.on('text', (piece) => grower.write(piece));
  parser.on('cdata', (piece) => grower.write(piece));
  parser.on('closetag', () => grower.close());
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  for (let at = 0; at < body.length; at += PIECE) parser.write(body.slice(at, at + PIECE));
  parser.close();
  return grower.root ?? importFault('not-xml', '', 'no element', 'an XML file');
}

class TreeGrower {
  root: XmlElement | null = null;
  readonly #line: () => number;
  readonly #open: GrowingElement[] = [];
  #count = 0;

  constructor(line: () => number) {
    this.#line = line;
  }

  countOne(): void {
    this.#count += 1;
    const { depth, elements } = importLimits;
    const path = `line ${this.#line()}`;
    if (this.#count > elements) importFault('too-large', path, `more than ${elements} elements`, `at most ${elements}`);
    if (this.#open.length >= depth)
      importFault('too-deep', path, `more than ${depth} levels`, `at most ${depth} levels`);
  }

  open(tag: SaxesTagNS): void {
    const attributes = new Map<string, string>();
    for (const { uri, local, value } of Object.values(tag.attributes)) if (uri === '') attributes.set(local, value);
    const element = { name: tag.local, space: tag.uri, attributes, children: [], text: '', line: this.#line() };
    this.#open.at(-1)?.children.push(element);
    this.#open.push(element);
    this.root ??= element;
  }

  write(piece: string): void {
    const element = this.#open.at(-1);
    if (element !== undefined) element.text += piece;
  }

  close(): void {
    this.#open.pop();
  }
}

/** Children of a name in their parent's own namespace. */
export function childrenOf(parent: XmlElement, name: string): readonly XmlElement[] {
  return parent.children.filter((child) => child.name === name && child.space === parent.space);
}

/** Text of the first child of a name; empty when there is none. */
export function childText(parent: XmlElement, name: string): string {
  return childrenOf(parent, name)[0]?.text.trim() ?? '';
}
