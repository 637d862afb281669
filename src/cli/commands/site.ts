import { writePlan } from '../../plan/file/write-plan.ts';
import { siteNoteSentence, systemNameWords } from '../../report/words/site-words.ts';
import { proposeSystems, type SiteOutcome } from '../../siting/systems/propose-systems.ts';
import type { SiteAnswer } from '../../siting/systems/site-answer.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { readFlags } from '../input/flags.ts';
import { type Command, InputError } from '../input/io.ts';
import { SEARCH_SHAPES, SEARCH_USAGE, SPRING_SHAPES, searchFlags, springFrom } from '../input/site-flags.ts';
import { siteJson } from '../input/site-json.ts';
import { TERRAIN_SHAPES, TERRAIN_USAGE, withTerrain } from '../input/terrain-files.ts';

const USAGE = `rillwright site --dem FILE… --source LON,LAT --yield 12L/min… [--need 1500L/day] [--tank LON,LAT]… [--lift 30m] [--json]

Where a ram could stand below a source, what would arrive, and whole systems, each judged as assess judges a plan. Nothing
that fails is proposed; where nothing is found, the reason is.

  --source       the spring
  --yield        what it gives; several readings one after another
  --need         what has to arrive a day
  --tank         where the water shall go; several one after another
  --lift         without a tank: how far above the source water is to be lifted
  --plan         a file to write the system with most water to
${SEARCH_USAGE}${TERRAIN_USAGE}  --json         the answer as JSON, in the units that its keys name
`;

const SHAPES = {
  ...TERRAIN_SHAPES,
  ...SEARCH_SHAPES,
  ...SPRING_SHAPES,
  '--plan': 'value',
  '--json': 'switch',
} as const;

export const command: Command = {
  name: 'site',
  summary: 'where a ram could stand, and whole systems',
  usage: USAGE,
  async run(args, io) {
    const flags = readFlags(args, SHAPES);
    const [stray] = flags.operands;
    if (stray !== undefined) throw new InputError(`found ${stray}, expected flags only`);
    const search = await searchFlags(flags, io);
    const spring = springFrom(flags);
    const { value: outcome } = await withTerrain(flags, io, {
      use: (terrain) => {
        const reference = { files: terrain.about.files, accuracy: flags.text('--accuracy'), constants: null };
        return proposeSystems(search.request(spring, reference), terrain);
      },
    });
    const answer = answerOf(outcome);
    const path = flags.text('--plan');
    const best = bestOf(answer);
    if (path !== null) {
      if (!best) throw new InputError(`--plan: found no system to write to ${path}: ${noteText(answer, search.units)}`);
      await io.writeFile(path, new TextEncoder().encode(writePlan(best.plan)));
    }
    io.out(
      flags.has('--json')
        ? `${JSON.stringify(siteJson(answer, search.units), null, 2)}\n`
        : asText(answer, search.units),
    );
  },
};

/** The answer; what cannot be answered at all is unusable input. */
export function answerOf(outcome: SiteOutcome): SiteAnswer {
  if (outcome.kind === 'answer') return outcome.answer;
  if (outcome.kind === 'no-height') {
    throw new InputError(`found no height at ${outcome.at.lon},${outcome.at.lat}, expected one in the elevation files`);
  }
  throw new InputError(`found ${outcome.kind === 'no-yield' ? 'no yield' : 'no source'}, expected one`);
}

const bestOf = ({ systems }: SiteAnswer) => systems.find((s) => s.name === 'most-water') ?? systems[0];

const noteText = ({ notes }: SiteAnswer, units: UnitSystem): string =>
  notes.map((note) => siteNoteSentence(note, units)).join(' ');

function asText(answer: SiteAnswer, units: UnitSystem): string {
  const range = (
    { low, likely, high }: { low: number; likely: number; high: number },
    kind: 'height' | 'daily-volume',
  ) =>
    `${writeQuantity(likely, kind, units)} (${writeQuantity(low, kind, units)} to ${writeQuantity(high, kind, units)})`;
  const metres = (value: number): string => writeQuantity(value, 'length', units);
  const places = answer.places.map((p, k) => {
    const trench =
      p.trench > 0
        ? `, of it ${metres(p.trench)} in a trench up to ${writeQuantity(p.depth, 'height', units)} deep`
        : '';
    const standpipe = p.standpipe
      ? `, standpipe at ${p.standpipe.lon.toFixed(6)},${p.standpipe.lat.toFixed(6)}`
      : ', no standpipe';
    return `place ${k + 1}: pump at ${p.pump.lon.toFixed(6)},${p.pump.lat.toFixed(6)}${standpipe}; fall ${range(p.fall, 'height')}; supply ${metres(p.supply)}, drive ${metres(p.drive)}${trench}; arrives ${range(p.delivery, 'daily-volume')}. ${siteNoteSentence(p.because, units)}`;
  });
  const systems = answer.systems.map(
    (s) =>
      `${systemNameWords(s.name)}: place ${s.place + 1} to ${s.tank}, ${range(s.delivery, 'daily-volume')}, ${metres(s.pipe)} of pipe; runs: ${s.runs}, arrives: ${s.arrives}`,
  );
  const note = noteText(answer, units);
  return `${[...places, ...systems, ...(note === '' ? [] : [note])].join('\n')}\n`;
}
