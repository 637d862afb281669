import { readdir, readFile } from 'node:fs/promises';
import { join, sep } from 'node:path';

/** What the file of licences is called, in the site and beside the command line. */
export const licencesFile = 'licences.txt';

const licenceName = /^(?:licen[cs]e|copying|notice)(?:[.-].*)?$/i;

/**
 * Gathers the packages whose code went into a build, and writes their licences beside it. What counts is what was bundled,
 * not what is declared: a worker is a build of its own and is given `ofWorker()`, which gathers into the same list.
 */
export function shippedLicences() {
  const folders = new Set();
  const gather = (bundle) => {
    for (const each of Object.values(bundle)) {
      if (each.type !== 'chunk') continue;
      for (const id of each.moduleIds ?? Object.keys(each.modules)) {
        const folder = packageFolder(id);
        if (folder !== null) folders.add(folder);
      }
    }
  };
  return {
    ofWorker: () => ({ name: 'licences-of-worker', generateBundle: (_, bundle) => gather(bundle) }),
    ofBuild: () => ({
      name: 'licences-of-build',
      async generateBundle(_, bundle) {
        gather(bundle);
        const packages = await Promise.all([...folders].map(aboutPackage));
        this.emitFile({ type: 'asset', fileName: licencesFile, source: asText(packages) });
      },
    }),
  };
}

/** Folder of the package that a module belongs to; null for the program's own and for what the builder makes itself. */
function packageFolder(id) {
  const path = id.replace(/^\0/, '').replace(/\?.*$/, '').replaceAll('/', sep);
  const parts = path.split(`${sep}node_modules${sep}`);
  if (parts.length === 1) return null;
  const inside = parts.pop() ?? '';
  const [first = '', second = ''] = inside.split(sep);
  return [...parts, first.startsWith('@') ? join(first, second) : first].join(`${sep}node_modules${sep}`);
}

async function aboutPackage(folder) {
  const { name, version, license, author } = JSON.parse(await readFile(join(folder, 'package.json'), 'utf8'));
  const names = (await readdir(folder)).filter((each) => licenceName.test(each)).sort();
  const texts = await Promise.all(names.map((each) => readFile(join(folder, each), 'utf8')));
  const text = texts.join('\n\n').trim() || textOf(license, author?.name ?? author ?? `the authors of ${name}`);
  return { name, version, license, text };
}

/** The text of a licence that a package states by its name only. Source: SPDX licence list. */
function textOf(license, holder) {
  const terms = TERMS[license];
  if (terms === undefined) throw new Error(`found a package under ${license} without its text, expected the text`);
  return `${license} licence, which the package states without its text\n\nCopyright (c) ${holder}\n\n${terms}`;
}

const TERMS = {
  MIT: `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated
documentation files (the "Software"), to deal in the Software without restriction, including without limitation the
rights to use, copy, modify, merge, publish, distribute, sublicense, and/or sell copies of the Software, and to permit
persons to whom the Software is furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the
Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE
WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR
COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR
OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.`,
  ISC: `Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby
granted, provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL
IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT,
INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN
ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF
THIS SOFTWARE.`,
};

function asText(packages) {
  const rows = packages.toSorted((one, other) => (one.name < other.name ? -1 : 1));
  const parts = rows.map(
    ({ name, version, license, text }) => `${'='.repeat(80)}\n${name} ${version} (${license})\n\n${text}\n`,
  );
  return `Packages whose code is in this folder, and their licences.\n\n${parts.join('\n')}`;
}
