import type { FigureNode } from '../figure/figure-node.ts';
import { escapeText } from '../figure/figure-svg.ts';

/** Elements of HTML that have no end tag. */
const VOID = new Set(['br', 'hr', 'meta']);
/** Elements after which the text may begin a new line without a blank appearing on the page. */
const BLOCKS = new Set([
  'article',
  'section',
  'div',
  'header',
  'footer',
  'main',
  'h1',
  'h2',
  'h3',
  'p',
  'ul',
  'ol',
  'li',
  'table',
  'thead',
  'tbody',
  'tr',
  'td',
  'th',
  'figure',
  'figcaption',
  'dl',
  'dt',
  'dd',
  'svg',
  'g',
  'defs',
  'path',
  'rect',
  'line',
  'circle',
  'text',
  'title',
  'clipPath',
  'pattern',
]);

/** Writes elements as HTML text with figures inline, every name and text escaped. */
export function htmlText({ tag, attributes, children }: FigureNode): string {
  const written = Object.entries(attributes).map(
    ([name, value]) => ` ${name}="${escapeText(value).replaceAll('"', '&quot;')}"`,
  );
  const open = `<${tag}${written.join('')}>`;
  const end = BLOCKS.has(tag) ? '\n' : '';
  if (VOID.has(tag)) return open + end;
  const inside = children.map((child) => (typeof child === 'string' ? escapeText(child) : htmlText(child)));
  return `${open}${inside.join('')}</${tag}>${end}`;
}

/** A page of its own around a sheet: no script, its style inside, nothing to fetch. */
export function htmlPage(sheet: FigureNode, page: { readonly title: string; readonly style: string }): string {
  // A style element ends at the first end tag in it, whatever stands around.
  const style = page.style.replaceAll('</', '<\\/');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeText(page.title)}</title>
<style>
${style}</style>
</head>
<body>
${htmlText(sheet)}</body>
</html>
`;
}
