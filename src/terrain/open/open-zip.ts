import { unzipSync } from 'fflate';
import type { ByteSource } from '../bytes/byte-source.ts';
import { refuse } from '../bytes/file-refusal.ts';
import { FileQuestion, type OpenAnswers, type OpenOutcome } from '../georeference/open-answers.ts';
import { type Beside, withBeside } from './beside.ts';
import { openOutcome } from './open-failure.ts';
import type { OpenedGrid } from './opened-grid.ts';

/** An archive is read as a whole, and one entry of it unpacked, both within this, bytes. */
const MOST_ARCHIVE = 512 * 1024 * 1024;
const MOST_ENTRY = 512 * 1024 * 1024;
const MOST_ENTRIES = 10_000;
const HEIGHTS = /\.(?:tiff?|asc|hgt|xyz)$/i;
const BESIDE = /\.(?:msk|tfw|tifw|wld|prj|aux\.xml)$/i;

export const looksLikeZip = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && (head[2] === 3 || head[2] === 5);

/** Opens one elevation file inside a zip archive: the only one, or the one that the user named. */
export async function openZip(
  source: ByteSource,
  answers: OpenAnswers,
  open: (inner: ByteSource, beside: Beside) => Promise<OpenOutcome<OpenedGrid>>,
): Promise<OpenOutcome<OpenedGrid>> {
  const chosen = await openOutcome(source.name, () => chooseEntry(source, answers), answers.signal);
  if (chosen.kind !== 'opened') return chosen;
  const { file, beside } = chosen.value;
  return asOf(source.name, file.name, await open(file, beside));
}

/** What is told of the file inside is told of the archive, which is the file that the user knows. */
function asOf(archive: string, entry: string, outcome: OpenOutcome<OpenedGrid>): OpenOutcome<OpenedGrid> {
  if (outcome.kind === 'opened') return outcome;
  const problems = outcome.problems.map((p) => ({ ...p, path: p.path.replace(entry, `${archive}: ${entry}`) }));
  if (outcome.kind === 'refused') return { ...outcome, problems };
  return { ...outcome, problems, question: { ...outcome.question, file: archive } };
}

interface Chosen {
  readonly file: ByteSource;
  readonly beside: Beside;
}

async function chooseEntry(source: ByteSource, { entry, signal }: OpenAnswers): Promise<Chosen> {
  if (source.size > MOST_ARCHIVE) {
    const expected = `at most ${MOST_ARCHIVE / 1024 / 1024} MB in an archive: unpack it first`;
    refuse({ code: 'archive-size', where: '', found: `${Math.ceil(source.size / 1024 / 1024)} MB`, expected });
  }
  const [bytes = new Uint8Array(0)] = await source.read([{ offset: 0, length: source.size }], signal);
  const names = namesIn(bytes);
  const heights = names.filter((name) => HEIGHTS.test(name));
  const [only] = heights;
  if (only === undefined) {
    const expected = 'a GeoTIFF, an ASCII grid, .hgt or .xyz inside it';
    return refuse({ code: 'archive', where: '', found: `an archive of ${names.length} files`, expected });
  }
  if (entry !== undefined && !heights.includes(entry)) {
    refuse({ code: 'archive', where: '', found: `no ${entry}`, expected: heights.slice(0, 20).join(', ') });
  }
  if (entry === undefined && heights.length > 1) {
    throw new FileQuestion({ kind: 'question', about: 'entry', file: source.name, entries: heights.slice(0, 200) });
  }
  return unpacked(bytes, names, entry ?? only);
}

/** The entry and what lies beside it, in memory. */
function unpacked(bytes: Uint8Array, names: readonly string[], wanted: string): Chosen {
  const stem = wanted.replace(/\.[^.]*$/, '').toLowerCase();
  const companions = names.filter((name) => BESIDE.test(name) && name.toLowerCase().startsWith(`${stem}.`));
  const files = unzip(bytes, ({ name }) => name === wanted || companions.includes(name));
  const sources = [wanted, ...companions].flatMap((name) => {
    const content = files[name];
    return content === undefined ? [] : [inMemory(name.replace(/^.*\//, ''), content)];
  });
  const [sorted] = withBeside(sources);
  if (sorted === undefined) throw new Error(`${wanted}: found nothing in the archive, expected the entry`);
  return sorted;
}

interface Entry {
  readonly name: string;
  readonly size: number;
  readonly originalSize: number;
}

/** Names of the entries: folders, and what one system hides in archives, are none. */
function namesIn(bytes: Uint8Array): string[] {
  const names: string[] = [];
  unzip(bytes, ({ name }) => {
    if (names.length >= MOST_ENTRIES) {
      refuse({ code: 'archive', where: '', found: `more than ${MOST_ENTRIES} files`, expected: 'fewer' });
    }
    if (!name.endsWith('/') && !name.startsWith('__MACOSX/')) names.push(name);
    return false;
  });
  return names;
}

/** Unpacks what is wanted; an entry that says it is larger than the bound is not touched, and none gets larger than it says. */
function unzip(bytes: Uint8Array, wanted: (entry: Entry) => boolean): Record<string, Uint8Array> {
  let failure: unknown = null;
  try {
    return unzipSync(bytes, {
      filter: (entry) => {
        try {
          if (!wanted(entry)) return false;
          if (entry.originalSize <= MOST_ENTRY) return true;
          const expected = `at most ${MOST_ENTRY / 1024 / 1024} MB: unpack it first`;
          return refuse({ code: 'archive-size', where: entry.name, found: `${entry.originalSize} bytes`, expected });
        } catch (error) {
          failure ??= error;
          throw error;
        }
      },
    });
  } catch (error) {
    if (failure !== null) throw failure;
    const found = error instanceof Error ? error.message : String(error);
    return refuse({ code: 'archive', where: '', found, expected: 'a zip archive that can be unpacked' });
  }
}

function inMemory(name: string, bytes: Uint8Array): ByteSource {
  return {
    name,
    size: bytes.length,
    read: async (slices) =>
      slices.map(({ offset, length }) => {
        if (offset < 0 || offset + length > bytes.length) {
          refuse({ code: 'short-read', where: '', found: `${bytes.length} bytes`, expected: `${offset + length}` });
        }
        return bytes.slice(offset, offset + length);
      }),
  };
}
