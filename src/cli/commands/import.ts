import { type FoundItem, type ImportPreview, importLimits } from '../../plan/exchange/import-preview.ts';
import { readImport } from '../../plan/exchange/read-import.ts';
import type { CsvStatement } from '../../plan/exchange/read-points-csv.ts';
import { foundItemWords, heightsAsideWords } from '../../report/exchange/import-words.ts';
import { problemSentence } from '../../report/words/refusal-words.ts';
import { type Flags, readFlags } from '../input/flags.ts';
import type { Command, CommandIo } from '../input/io.ts';
import { InputError } from '../input/io.ts';
import { onlyOperand, unitsFrom } from '../input/plan-operand.ts';
import { problemLine } from '../input/problem-line.ts';

const USAGE = `rillwright import FILE [--xy lon-lat] [--units metric|us] [--json]

The points and lines that a GPX, KML, GeoJSON or CSV file holds, and what each could be in a plan. Heights in the file are
shown and never used: they have another zero and another accuracy than an elevation file.

  --xy           lon-lat, where a table's columns x and y are longitude and latitude in degrees
  --units        metric or us, for the text; metric when not given
  --json         the answer as JSON
`;

const SHAPES = { '--xy': 'value', '--units': 'value', '--json': 'switch' } as const;

export const command: Command = {
  name: 'import',
  summary: 'the points and lines that a GPX, KML, GeoJSON or CSV file holds',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const path = onlyOperand(flags, 'file', 'a GPX, KML, GeoJSON or CSV file');
    const stated = statementFrom(flags);
    const units = unitsFrom(flags) ?? 'metric';
    const preview = readImport({ name: path, bytes: await bytesOf(path, io) }, stated);
    if (!preview.ok) throw new InputError(preview.problems.map((p) => problemLine(inFile(p, path))).join('; '));
    if (flags.has('--json')) io.out(`${JSON.stringify(asJson(preview.value), null, 2)}\n`);
    else io.out(asText(preview.value, units));
  },
};

function inFile<P extends { readonly path: string }>(problem: P, file: string): P {
  return { ...problem, path: problem.path === '' ? file : `${file}, ${problem.path}` };
}

function statementFrom(flags: Flags): CsvStatement {
  const xy = flags.text('--xy');
  if (xy === null || xy === 'lon-lat') return { xy };
  throw new InputError(`--xy: found ${xy}, expected lon-lat`);
}

async function bytesOf(path: string, io: CommandIo): Promise<Uint8Array> {
  const [file] = await io.openFiles([path]);
  if (file === undefined) throw new Error(`found no open file for ${path}, expected one`);
  try {
    const { bytes: most } = importLimits;
    if (file.size > most) throw new InputError(`${path}: found ${file.size} bytes, expected at most ${most}`);
    const [bytes] = file.size === 0 ? [] : await file.read([{ offset: 0, length: file.size }]);
    return bytes ?? new Uint8Array();
  } finally {
    await file.close();
  }
}

function asJson({ file, format, items, problems }: ImportPreview): unknown {
  return { file, format, items: items.map(itemJson), problems };
}

function itemJson({
  key,
  kind,
  name,
  note,
  path,
  suggested,
  positions,
  heights,
  problems,
  remarks,
}: FoundItem): unknown {
  return {
    key,
    kind,
    name,
    note,
    path,
    suggested_role: suggested,
    positions: positions.map(({ lon, lat }) => [lon, lat]),
    heights_not_used_m: heights,
    problems,
    remarks,
  };
}

function asText({ items, problems }: ImportPreview, units: 'metric' | 'us'): string {
  const lines = items.flatMap((item) => [
    `${item.key}  ${item.name || 'without a name'}: ${foundItemWords(item, units)}; ${item.suggested ?? 'no role suggested'}`,
    ...[heightsAsideWords(item.heights, units) ?? [], [...item.problems, ...item.remarks].map(problemSentence)]
      .flat()
      .map((line) => `        ${line}`),
  ]);
  return [...lines, ...problems.map(problemSentence)].map((line) => `${line}\n`).join('');
}
