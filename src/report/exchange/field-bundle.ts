import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { z } from 'zod';
import { readPlan } from '../../plan/file/read-plan.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { terrainNoteCodes } from '../../terrain/grid/terrain-note.ts';
import type { HeightsRecord } from '../../terrain/open/opened-grid.ts';
import type { Outcome, Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';

/** A file inside a bundle, by its name without a folder. */
export interface BundledFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface BundledHeights extends BundledFile {
  readonly record: HeightsRecord;
}

/** A picture with its world file, and its EPSG code. */
export interface BundledPicture {
  readonly files: readonly BundledFile[];
  readonly crs: number;
}

/** Everything that a plan needs out of doors, in one file. Records and readings are the plan's own. */
export interface FieldBundle {
  readonly plan: Plan;
  /** The plan as it was taken along: what differs from it was changed since. */
  readonly asTaken: Plan;
  readonly heights: readonly BundledHeights[];
  /** How far around points and lines the heights go, m; null where all of the files is there. */
  readonly margin: Metres | null;
  readonly picture: BundledPicture | null;
}

/** Most bytes of heights in a bundle, and of the picture. */
export const MOST_HEIGHTS = 10_000_000;
export const MOST_PICTURE_PIXELS = 4_000_000;

const FIRST = 'field.json';
const PLAN = 'plan.geojson';
const AS_TAKEN = 'plan-as-taken.geojson';
const ABOUT = 'about.txt';
const VERSION = 1;

const note = z.object({
  code: z.enum(terrainNoteCodes),
  data: z.record(z.string(), z.union([z.string(), z.number()])),
});
const record = z.object({
  name: z.string().min(1).max(1000),
  quantum: z.number().min(0),
  verticalUnit: z.enum(['metre', 'foot', 'US survey foot', 'British foot 1936', 'centimetre', 'decimetre']),
  unitEvidence: z.enum([
    'UNITTYPE',
    'VerticalUnits',
    'VerticalCrs',
    'GeogLinearUnits',
    'assumed',
    'answered',
    'format',
  ]),
  verticalDatum: z.string().nullable(),
  notes: z.array(note).max(100),
});
const entryName = z.string().regex(/^(?:heights|picture)\/[^/\\]{1,200}$/);
const contents = z.object({
  format: z.literal('rillwright-field'),
  version: z.literal(VERSION),
  margin_m: z.number().positive().nullable(),
  heights: z.array(z.object({ entry: entryName, record })).max(500),
  picture: z.object({ entries: z.array(entryName).min(1).max(3), epsg: z.number().int().positive() }).nullable(),
});

/** What a bundle of this kind begins with: its first entry is the table of contents. */
export function looksLikeBundle(head: Uint8Array): boolean {
  const isZip = head[0] === 0x50 && head[1] === 0x4b && head[2] === 3;
  return isZip && strFromU8(head.subarray(NAME_AT, NAME_AT + FIRST.length), true) === FIRST;
}

/** Where the name of an archive's first entry stands. Source: PKWARE .ZIP file format specification, 4.3.7. */
const NAME_AT = 30;
export const BUNDLE_HEAD_BYTES = NAME_AT + FIRST.length;

/** The bundle as a zip archive; the same bytes each time. */
export function writeBundle(bundle: FieldBundle): Uint8Array<ArrayBuffer> {
  const { plan, asTaken, heights, margin, picture } = bundle;
  const heightsEntry = ({ name }: BundledFile, k: number) => `heights/${k + 1}-${plainName(name)}`;
  const table: z.infer<typeof contents> = {
    format: 'rillwright-field',
    version: VERSION,
    margin_m: margin,
    heights: heights.map((file, k) => ({ entry: heightsEntry(file, k), record: mutable(file.record) })),
    picture: picture && { entries: picture.files.map(({ name }) => `picture/${plainName(name)}`), epsg: picture.crs },
  };
  const files: Zippable = {
    [FIRST]: strToU8(`${JSON.stringify(table, null, 2)}\n`),
    [ABOUT]: strToU8(aboutText(bundle)),
    [PLAN]: strToU8(writePlan(plan)),
    [AS_TAKEN]: strToU8(writePlan(asTaken)),
  };
  for (const [k, file] of heights.entries()) files[heightsEntry(file, k)] = file.bytes;
  // What is packed already is laid in as it is.
  for (const { name, bytes } of picture?.files ?? []) files[`picture/${plainName(name)}`] = [bytes, { level: 0 }];
  return new Uint8Array(zipSync(files, { level: 6, mtime: MADE }));
}

/** Every entry of every bundle is of this day: a zip archive has to name one. */
const MADE = new Date(2000, 0, 1);

const mutable = (given: HeightsRecord): z.infer<typeof record> => ({
  ...given,
  notes: given.notes.map(({ code, data }) => ({ code, data: { ...data } })),
});

/** A name that every system takes, and that no reader takes for another format. */
function plainName(name: string): string {
  const stem = name.replace(/[^\w.-]+/g, '-').slice(-100);
  return /\.(?:tiff?|jpe?g|jgw)$/i.test(stem) ? stem : `${stem}.tif`;
}

/** What is not in a bundle and could be. */
export function missingInBundle({ heights, picture, margin }: FieldBundle): readonly string[] {
  return [
    ...(heights.length === 0 ? ['no elevation: open the elevation file yourself'] : []),
    ...(margin === null ? [] : [`no ground further than ${margin} m from the points and lines of the plan`]),
    ...(picture === null ? ['no aerial picture'] : []),
  ];
}

function aboutText(bundle: FieldBundle): string {
  const missing = missingInBundle(bundle).map((each) => `- ${each}\n`);
  return `A plan of Rillwright for use out of doors: ${bundle.plan.name}

Open this file in the planner, with or without a network, or with: rillwright assess FILE
Inside are the plan, the plan as it was taken along, and the ground around it as GeoTIFF files that any GIS opens.

What is not inside:
${missing.join('') || '- nothing is missing\n'}`;
}

/** More than this is not unpacked, bytes. */
const MOST_BUNDLE = 64 * 1024 * 1024;
const MOST_UNPACKED = 128 * 1024 * 1024;

/** Reads a bundle; what is in it that does not belong there is left alone. */
export function readBundle(name: string, bytes: Uint8Array): Outcome<FieldBundle> {
  const failed = (found: string, expected: string): Outcome<never> => {
    return { ok: false, problems: [{ code: 'bundle', path: name, found, expected }] };
  };
  if (bytes.length > MOST_BUNDLE) return failed(`${bytes.length} bytes`, `${MOST_BUNDLE} at most`);
  const files = unpacked(bytes);
  if (files === null) return failed('an archive that cannot be unpacked', 'the file as it was made');
  const table = contents.safeParse(jsonOf(files.get(FIRST)));
  if (!table.success) {
    const where = table.error.issues[0]?.path.join('.') ?? '';
    return failed(`a ${FIRST} that is not understood (${where})`, `one of version ${VERSION}`);
  }
  const problems: Problem[] = [];
  const plan = planIn(files, PLAN, problems);
  const asTaken = files.has(AS_TAKEN) ? planIn(files, AS_TAKEN, problems) : plan;
  const file = (entry: string): BundledFile | null => {
    const content = files.get(entry);
    return content === undefined ? null : { name: entry.replace(/^.*\//, ''), bytes: content };
  };
  const heights = table.data.heights.map(({ entry, record }) => ({ entry, record, file: file(entry) }));
  const picture = table.data.picture?.entries.map((entry) => ({ entry, file: file(entry) })) ?? [];
  for (const { entry, file } of [...heights, ...picture]) {
    if (file === null) problems.push({ code: 'bundle', path: name, found: `no ${entry}`, expected: 'it inside' });
  }
  if (plan === null || asTaken === null || problems.length > 0) return { ok: false, problems };
  const value: FieldBundle = {
    plan,
    asTaken,
    heights: heights.flatMap(({ file, record }) => (file ? [{ ...file, record }] : [])),
    margin: table.data.margin_m,
    picture: table.data.picture && { files: picture.flatMap(({ file }) => file ?? []), crs: table.data.picture.epsg },
  };
  return { ok: true, value };
}

function planIn(files: ReadonlyMap<string, Uint8Array>, entry: string, problems: Problem[]): Plan | null {
  const text = files.get(entry);
  if (text === undefined) {
    problems.push({ code: 'bundle', path: entry, found: 'no such file inside', expected: 'the plan' });
    return null;
  }
  const read = readPlan(strFromU8(text));
  if (read.ok) return read.value;
  problems.push(...read.problems.map((problem) => ({ ...problem, path: `${entry}: ${problem.path}` })));
  return null;
}

/** The files inside by their names; null where the archive is broken or would get too large. */
function unpacked(bytes: Uint8Array): Map<string, Uint8Array<ArrayBuffer>> | null {
  let left = MOST_UNPACKED;
  try {
    const files = unzipSync(bytes, {
      filter: ({ originalSize }) => {
        left -= originalSize;
        if (left < 0) throw new Error(`found more than ${MOST_UNPACKED} bytes, expected fewer`);
        return true;
      },
    });
    return new Map(Object.entries(files).map(([name, content]) => [name, new Uint8Array(content)]));
  } catch {
    return null;
  }
}

function jsonOf(bytes: Uint8Array | undefined): unknown {
  try {
    return bytes === undefined ? null : JSON.parse(strFromU8(bytes));
  } catch {
    return null;
  }
}
