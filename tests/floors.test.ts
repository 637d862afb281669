import { describe, expect, test } from 'vitest';
import { declaredFloors, type Floor } from './floors/declared-floors.ts';
import { importsOf } from './floors/imports-of.ts';
import { judgeFloors } from './floors/judge-floors.ts';
import { compiledFolders, sourceFiles } from './floors/source-files.ts';

describe('the floors of the program', () => {
  test('every import points downwards, is declared, and closes no cycle', () => {
    expect(judgeFloors(sourceFiles(), declaredFloors)).toEqual([]);
  });

  test('every floor is compiled in one of the compiler worlds', () => {
    const compiled = compiledFolders();
    const folders = new Set(sourceFiles().map(({ path }) => path.split('/').slice(0, 2).join('/')));
    expect([...folders].filter((folder) => !compiled.has(folder))).toEqual([]);
  });
});

const floors: Readonly<Record<string, Floor>> = {
  ground: { level: 0, folders: [], packages: [], data: false },
  left: { level: 1, folders: ['ground'], packages: ['pebble', '@stone/age'], data: true },
  right: { level: 1, folders: ['ground'], packages: [], data: false },
  top: { level: 2, folders: ['left', 'right', 'ground'], packages: [], data: false },
};

function judge(sources: Readonly<Record<string, string>>): readonly string[] {
  return judgeFloors(
    Object.entries(sources).map(([path, text]) => ({ path, text })),
    floors,
  );
}

const quiet = { 'src/ground/soil.ts': 'export const soil = 1;\n', 'src/left/wall.ts': 'export type Wall = 1;\n' };

describe('the judge of the floors', () => {
  test('accepts what the table allows', () => {
    const text = [
      "import { soil } from '../ground/soil.ts';",
      "import { a } from 'pebble';",
      "import { b } from '@stone/age/deep';",
      "import rows from '../../data/rows.json' with { type: 'json' };",
      'export const room = [soil, a, b, rows];',
      '',
    ].join('\n');
    expect(judge({ ...quiet, 'src/left/room.ts': text })).toEqual([]);
  });

  test('fails when it read no file', () => {
    expect(judge({})).toEqual(['no source file was read']);
  });

  test('fails on a folder that nobody declared, and on a file beside the floors', () => {
    expect(judge({ 'src/attic/box.ts': '' })).toEqual(['src/attic/box.ts: folder attic is not declared']);
    expect(judge({ 'src/box.ts': '' })).toEqual(['src/box.ts: belongs to no floor']);
  });

  test.each([
    ['import', "import { x } from '../left/wall.ts';"],
    ['import for its effect', "import '../left/wall.ts';"],
    ['import of a type', "import type { Wall } from '../left/wall.ts';"],
    ['export from', "export { x } from '../left/wall.ts';"],
    ['export of a type from', "export type { Wall } from '../left/wall.ts';"],
    ['export of everything', "export * from '../left/wall.ts';"],
    ['import on demand', "export const later = () => import('../left/wall.ts');"],
    ['type of an import', "export type W = import('../left/wall.ts').Wall;"],
    ['address of a module', "export const at = new URL('../left/wall.ts', import.meta.url);"],
    ['address for a bundler', "import at from '../left/wall.ts?worker&url';"],
  ])('sees %s to a neighbour and to a floor above', (_, text) => {
    const said = ['right', 'ground'].map((folder) => judge({ ...quiet, [`src/${folder}/bad.ts`]: text }));
    expect(said).toEqual([
      ['src/right/bad.ts: right may not import left (src/left/wall.ts)'],
      ['src/ground/bad.ts: ground may not import left (src/left/wall.ts)'],
    ]);
  });

  test('fails on a package, on data and on a file that the folder may not use', () => {
    expect(judge({ 'src/right/a.ts': "import 'pebble';" })).toEqual([
      'src/right/a.ts: package pebble is not on the list of right',
    ]);
    expect(judge({ 'src/left/a.ts': "import 'node:fs';" })).toEqual([
      'src/left/a.ts: package node is not on the list of left',
    ]);
    expect(judge({ 'src/right/a.ts': "import '../../data/rows.json';" })).toEqual([
      'src/right/a.ts: right may not read data/rows.json',
    ]);
    expect(judge({ 'src/left/a.ts': "import '../../tests/help.ts';" })).toEqual([
      'src/left/a.ts: tests/help.ts lies outside the floors',
    ]);
    expect(judge({ 'src/left/a.ts': "import './gone.ts';" })).toEqual(['src/left/a.ts: src/left/gone.ts is not there']);
  });

  test('fails on an import that cannot be read off and on a file that cannot be parsed', () => {
    const unreadable = 'export const load = (name: string) => import(name);';
    expect(judge({ 'src/left/a.ts': unreadable })).toEqual([
      'src/left/a.ts: ImportExpression of something that is not written out',
    ]);
    expect(judge({ 'src/left/a.ts': 'export const = 1;' }).join()).toContain('cannot be parsed');
  });

  test('finds a cycle even when it is made of types only', () => {
    const sources = {
      'src/left/a.ts': "import type { B } from './b.ts';\nexport type A = B;",
      'src/left/b.ts': "export type { A as B } from './a.ts';",
    };
    expect(judge(sources)).toEqual(['import cycle: src/left/a.ts → src/left/b.ts → src/left/a.ts']);
  });

  test('fails on a long file and on a name that says nothing', () => {
    expect(judge({ 'src/left/a.ts': '\n'.repeat(401) })).toEqual(['src/left/a.ts: 401 lines, at most 400']);
    expect(judge({ 'src/left/index.ts': '', 'src/left/sub/types.ts': '' })).toHaveLength(2);
    expect(judge({ 'src/left/fooBar.ts': '' })).toEqual(['src/left/fooBar.ts: a file name in kebab-case was expected']);
  });

  const housed = {
    house: { level: 0, folders: [], packages: [], data: false, rooms: ['cellar', 'kitchen', '.'] },
  };
  const judgeHouse = (sources: Readonly<Record<string, string>>) =>
    judgeFloors(
      Object.entries(sources).map(([path, text]) => ({ path, text })),
      housed,
    );

  test('fails on an import that goes up inside a floor, types too, and on a room that nobody declared', () => {
    const cellar = { 'src/house/cellar/jar.ts': 'export type Jar = 1;' };
    const kitchen = {
      'src/house/kitchen/pan.ts': "import type { Jar } from '../cellar/jar.ts';\nexport type Pan = Jar;",
    };
    const top = { 'src/house/door.ts': "import type { Pan } from './kitchen/pan.ts';\nexport type Door = Pan;" };
    expect(judgeHouse({ ...cellar, ...kitchen, ...top })).toEqual([]);
    expect(
      judgeHouse({
        ...cellar,
        'src/house/kitchen/pan.ts': 'export type Pan = 1;',
        'src/house/cellar/up.ts': "import type { Pan } from '../kitchen/pan.ts';\nexport type Up = Pan;",
      }),
    ).toEqual(['src/house/cellar/up.ts: room cellar may not import kitchen (src/house/kitchen/pan.ts)']);
    expect(judgeHouse({ 'src/house/attic/box.ts': '' })).toEqual([
      'src/house/attic/box.ts: room attic of house is not declared',
    ]);
  });

  test('fails on a room with too many files', () => {
    const many = Object.fromEntries(Array.from({ length: 23 }, (_, at) => [`src/house/cellar/jar-${at}.ts`, '']));
    expect(judgeHouse(many)).toEqual(['src/house/cellar: 23 files, at most 22']);
  });

  test('fails on a table that points upwards', () => {
    const crooked = { ...floors, ground: { level: 0, folders: ['left'], packages: [], data: false } };
    expect(judgeFloors([{ path: 'src/left/a.ts', text: '' }], crooked)).toEqual([
      'declared floors: ground may not list left, which is not below it',
    ]);
  });
});

test('imports are read in every place they can stand in', () => {
  const text = "import a from 'a';\nexport * as b from 'b';\nconst c = import('c');\ntype D = typeof import('d');\n";
  expect(importsOf({ path: 'x.ts', text }).requests).toEqual(['a', 'b', 'c', 'd']);
});
