import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { documents, exists, withoutBlocks } from './documents.ts';

interface Link {
  readonly from: string;
  readonly target: string;
}

function linksOf({ path, text }: { readonly path: string; readonly text: string }): readonly Link[] {
  return [...withoutBlocks(text).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => ({ from: path, target: match[1] ?? '' }));
}

/** Headings as the anchors that common viewers make of them. */
function anchors(text: string): ReadonlySet<string> {
  const headings = [...withoutBlocks(text).matchAll(/^#+ (.+)$/gm)].map((match) => match[1] ?? '');
  return new Set(
    headings.map((heading) =>
      heading
        .toLowerCase()
        .replace(/[^\p{L}\p{N} -]/gu, '')
        .replace(/ /g, '-'),
    ),
  );
}

const all = documents();
const links = all.flatMap(linksOf);
const inside = links.filter(({ target }) => !/^[a-z]+:/.test(target));

describe('the documents', () => {
  it('have links to look at', () => {
    expect(all.length).toBeGreaterThan(5);
    expect(inside.length).toBeGreaterThan(5);
  });

  it('link to files that are there', () => {
    const broken = inside.filter(({ from, target }) => {
      const file = target.replace(/#.*$/, '');
      return file !== '' && !exists(posix.join(posix.dirname(from), file));
    });
    expect(broken).toEqual([]);
  });

  it('link to headings that are there', () => {
    const broken = inside.filter(({ from, target }) => {
      const [file = '', anchor] = target.split('#');
      const path = file === '' ? from : posix.join(posix.dirname(from), file);
      const document = all.find((each) => each.path === path);
      return anchor !== undefined && !(document && anchors(document.text).has(anchor));
    });
    expect(broken).toEqual([]);
  });
});
