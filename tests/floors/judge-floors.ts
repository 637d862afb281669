import { posix } from 'node:path';
import type { Floor } from './declared-floors.ts';
import { importsOf, type SourceFile } from './imports-of.ts';

const mostLines = 400;
/** A room of more files than this holds more than one idea. */
const mostFiles = 22;
const vagueNames = ['index', 'types', 'utils'];
/** Files directly in `src` that belong to no floor. */
const loose = ['src/core-globals.d.ts'];

/** Everything in which source files break the house's floors; empty when they stand. */
export function judgeFloors(files: readonly SourceFile[], floors: Readonly<Record<string, Floor>>): readonly string[] {
  if (files.length === 0) return ['no source file was read'];
  const known = new Set(files.map(({ path }) => path));
  const graph = new Map<string, readonly string[]>();
  const complaints: string[] = [];
  for (const file of files) {
    const { requests, faults } = importsOf(file);
    const targets = requests.map((request) => targetOf(file.path, request));
    graph.set(
      file.path,
      targets.flatMap((target) => (target.kind === 'file' ? [target.path] : [])),
    );
    const said = [
      ...faults,
      ...judgeForm(file),
      ...judgeFolder(file.path, floors),
      ...targets.flatMap((target) => judgeImport({ from: file.path, target, floors, known })),
    ];
    complaints.push(...said.map((complaint) => `${file.path}: ${complaint}`));
  }
  return [...complaints, ...judgeRooms(files), ...cycles(graph), ...judgeTable(floors)];
}

type Target = { readonly kind: 'file'; readonly path: string } | { readonly kind: 'package'; readonly name: string };

function targetOf(from: string, request: string): Target {
  const bare = request.replace(/\?.*$/, '');
  if (bare.startsWith('.') || bare.startsWith('/')) {
    return { kind: 'file', path: posix.normalize(posix.join(posix.dirname(from), bare)) };
  }
  if (bare.startsWith('node:')) return { kind: 'package', name: 'node' };
  const parts = bare.split('/');
  return { kind: 'package', name: bare.startsWith('@') ? parts.slice(0, 2).join('/') : (parts[0] ?? bare) };
}

function judgeForm({ path, text }: SourceFile): readonly string[] {
  const lines = text.split('\n').length - 1;
  const stem = posix.basename(path).replace(/\..*$/, '');
  return [
    ...(lines > mostLines ? [`${lines} lines, at most ${mostLines}`] : []),
    ...(vagueNames.includes(stem) ? [`a file named ${stem} says nothing of what is in it`] : []),
    ...(/^[a-z0-9]+(-[a-z0-9]+)*$/.test(stem) ? [] : ['a file name in kebab-case was expected']),
  ];
}

function judgeFolder(path: string, floors: Readonly<Record<string, Floor>>): readonly string[] {
  const folder = folderOf(path);
  if (folder === null) return loose.includes(path) ? [] : ['belongs to no floor'];
  const floor = Object.hasOwn(floors, folder) ? floors[folder] : undefined;
  if (floor === undefined) return [`folder ${folder} is not declared`];
  const room = roomOf(path);
  return floor.rooms === undefined || floor.rooms.includes(room) ? [] : [`room ${room} of ${folder} is not declared`];
}

/** The room of its floor in which a file lies; `.` where it lies in the floor's own folder. */
function roomOf(path: string): string {
  return path.split('/').slice(2, -1).join('/') || '.';
}

/** Rooms that hold too many files. */
function judgeRooms(files: readonly SourceFile[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const { path } of files) counts.set(posix.dirname(path), (counts.get(posix.dirname(path)) ?? 0) + 1);
  return [...counts]
    .filter(([, count]) => count > mostFiles)
    .map(([room, count]) => `${room}: ${count} files, at most ${mostFiles}`);
}

/** The folder of `src` that a file belongs to. */
function folderOf(path: string): string | null {
  const [src, folder, ...rest] = path.split('/');
  return src === 'src' && folder !== undefined && rest.length > 0 ? folder : null;
}

interface Import {
  readonly from: string;
  readonly target: Target;
  readonly floors: Readonly<Record<string, Floor>>;
  readonly known: ReadonlySet<string>;
}

function judgeImport({ from, target, floors, known }: Import): readonly string[] {
  const folder = folderOf(from);
  const floor = folder === null ? undefined : floors[folder];
  if (folder === null || floor === undefined) return [];
  if (target.kind === 'package') {
    return floor.packages.includes(target.name) ? [] : [`package ${target.name} is not on the list of ${folder}`];
  }
  if (target.path.startsWith('data/')) return floor.data ? [] : [`${folder} may not read ${target.path}`];
  const to = folderOf(target.path);
  if (to === null) return [`${target.path} lies outside the floors`];
  if (!known.has(target.path) && !target.path.endsWith('.css')) return [`${target.path} is not there`];
  if (to !== folder) return floor.folders.includes(to) ? [] : [`${folder} may not import ${to} (${target.path})`];
  return judgeStairs(floor, roomOf(from), target.path);
}

/** Inside a floor, too, imports point downwards only. */
function judgeStairs({ rooms }: Floor, from: string, target: string): readonly string[] {
  if (rooms === undefined) return [];
  const to = roomOf(target);
  return rooms.indexOf(to) <= rooms.indexOf(from) ? [] : [`room ${from} may not import ${to} (${target})`];
}

/** The table itself must only point downwards. */
function judgeTable(floors: Readonly<Record<string, Floor>>): readonly string[] {
  return Object.entries(floors).flatMap(([name, { level, folders }]) =>
    folders
      .filter((folder) => (floors[folder]?.level ?? Number.POSITIVE_INFINITY) >= level)
      .map((folder) => `declared floors: ${name} may not list ${folder}, which is not below it`),
  );
}

/** Each cycle of imports once, as the path around it. */
function cycles(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const done = new Set<string>();
  const found: string[] = [];
  const follow = (path: string, trail: readonly string[]): void => {
    const start = trail.indexOf(path);
    if (start >= 0) {
      found.push(`import cycle: ${[...trail.slice(start), path].join(' → ')}`);
      return;
    }
    if (done.has(path)) return;
    for (const next of graph.get(path) ?? []) follow(next, [...trail, path]);
    done.add(path);
  };
  for (const path of graph.keys()) follow(path, []);
  return found;
}
