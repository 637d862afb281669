import type { UnitSystem } from '../../units/kind.ts';
import { spelled } from '../words/spelling.ts';

/** A word of the trade and what it means in plain words. */
export interface GlossaryEntry {
  readonly term: string;
  readonly meaning: string;
}

export interface GlossaryPart {
  readonly title: string;
  readonly entries: readonly GlossaryEntry[];
}

/** What a height of water is as a pressure: 1000 kg/m³ × 9.80665 m/s². */
const HEAD: Readonly<Record<UnitSystem, string>> = {
  metric: '1 m of water is about 0.1 bar',
  us: '1 ft of water is about 0.43 psi',
};

/** What a word means, in the spelling and the units of a reader; in both units where these are not known. */
export function meaningFor({ meaning }: GlossaryEntry, units: UnitSystem | null): string {
  const head = units === null ? `${HEAD.metric}, ${HEAD.us}` : HEAD[units];
  return spelled(meaning.replace('{head}', head), units ?? 'metric');
}

/** The words in the order in which the water meets them, then those for pressure, then those for the ground. */
export const GLOSSARY: readonly GlossaryPart[] = [
  {
    title: 'From the spring to the trough',
    entries: [
      { term: 'source', meaning: 'Where the water comes from: a spring, a spring box, a dammed stream.' },
      { term: 'yield', meaning: 'How much water the source gives. Measured with a bucket and a watch.' },
      { term: 'spring box', meaning: 'A small closed tank at a spring. It keeps dirt out and holds a little water.' },
      {
        term: 'supply line',
        meaning: 'The pipe from the source to the standpipe. It runs full and should not rise on the way.',
      },
      {
        term: 'standpipe',
        meaning:
          'An open upright pipe (or tank) between supply line and drive pipe. Pressure waves of the drive pipe end there, so that the drive pipe may have the length it needs although the source is farther away.',
      },
      {
        term: 'drive pipe',
        meaning:
          'The straight, stiff pipe from the standpipe (or source) down to the pump. The water in it speeds up and is stopped, once a beat.',
      },
      {
        term: 'hydraulic ram',
        meaning: 'A pump without motor. Much water falling a little lifts a little water a lot.',
      },
      {
        term: 'waste valve',
        meaning: 'The valve of the ram that lets water run away until it is fast enough to slam the valve shut.',
      },
      {
        term: 'waste water',
        meaning: 'What runs out of the waste valve: most of the water. It must be able to drain away from the pump.',
      },
      {
        term: 'delivery valve',
        meaning: 'The check valve that lets the pressed water into the air chamber and not back.',
      },
      { term: 'check valve', meaning: 'A valve that lets water through one way only.' },
      {
        term: 'air chamber',
        meaning:
          'A closed vessel with air above the water. The air takes the blow and presses the water on, so that the delivery flows evenly.',
      },
      {
        term: 'snifter',
        meaning: 'A tiny hole or valve that draws in a little air at every beat, to replace the air that dissolves.',
      },
      { term: 'strainer', meaning: 'A screen before an inlet that keeps leaves and sand out of the pipe. It clogs.' },
      {
        term: 'record',
        meaning:
          'What was read at the pump when it ran well: level, beats, waste, delivery, gauge. Readings are compared with it when something is wrong.',
      },
      {
        term: 'flush',
        meaning: 'To hold the waste valve down for a minute, so that the water takes caught air out of the drive pipe.',
      },
      { term: 'tail water', meaning: 'Water that stands behind the waste valve and covers its outlet.' },
      { term: 'beat', meaning: 'One turn of the waste valve: open, shut, open. Rams make about 40 to 120 a minute.' },
      {
        term: 'recoil',
        meaning: 'The water’s short run backwards after the blow. It pulls the waste valve open again.',
      },
      { term: 'intake, drive flow', meaning: 'How much water runs into the drive pipe.' },
      { term: 'delivery line', meaning: 'The pipe from the pump up to the tank.' },
      { term: 'delivery', meaning: 'How much water arrives at the tank.' },
      { term: 'tank', meaning: 'Where the water is stored, high up.' },
      { term: 'gravity line', meaning: 'A pipe from the tank (or the source) down to a trough. It needs no pump.' },
      { term: 'trough', meaning: 'Where the animals drink. A float valve keeps it full.' },
    ],
  },
  {
    title: 'Heights and pressures',
    entries: [
      {
        term: 'fall',
        meaning:
          'How far the water drops to the waste valve. The working fall is counted from the water in the standpipe while the pump runs; the fall with no flow from the water at the source, and is a little more.',
      },
      {
        term: 'lift',
        meaning: 'How far the water must be raised from the waste valve to where it runs out at the tank.',
      },
      {
        term: 'governing lift',
        meaning: 'The highest lift on the way: to the tank, or to a vented high point that the water must pass.',
      },
      {
        term: 'head',
        meaning: 'Pressure told as the height of the water that makes it: {head}.',
      },
      { term: 'delivery head', meaning: 'The governing lift plus the friction of the delivery line.' },
      {
        term: 'back pressure',
        meaning: 'The delivery head as the pump feels it. With too little of it the waste valve does not open again.',
      },
      {
        term: 'lift over fall',
        meaning: 'Delivery head divided by fall. The bigger, the smaller the share that arrives.',
      },
      { term: 'static, at rest', meaning: 'With no water moving.' },
      { term: 'running', meaning: 'With the system working. Levels are lower and friction counts.' },
      {
        term: 'friction, head loss',
        meaning:
          'Height lost because water rubs along the pipe. More with a smaller bore, a longer pipe, a faster flow.',
      },
      {
        term: 'hydraulic grade line, water line',
        meaning:
          'The height to which water would rise in an open tube at each place along a running pipe. Where the pipe lies above it, the pressure is below that of the air.',
      },
      { term: 'static line', meaning: 'The same at rest: a level line.' },
      {
        term: 'valley line',
        meaning:
          'The way that water takes over the ground, as the elevation file shows it. A pump is looked for beside it.',
      },
      {
        term: 'flood mark',
        meaning: 'How high the stream rises in a flood. The pump stands above it.',
      },
      {
        term: 'map of what arrives',
        meaning: 'A map that shows at every place how much water a tank there would get a day.',
      },
      { term: 'summit', meaning: 'A high point of a route between lower ones. Air gathers there.' },
      {
        term: 'sag',
        meaning: 'A low point between higher ones. Dirt gathers there, and it can freeze; a drain helps.',
      },
      { term: 'vent', meaning: 'An opening at a summit that lets air in and out.' },
      {
        term: 'siphon',
        meaning:
          'A pipe running full over a summit higher than its end: the far leg sucks. The pump then feels less back pressure.',
      },
      { term: 'air lock', meaning: 'Air caught at a summit that stops or throttles the flow.' },
      {
        term: 'water hammer',
        meaning: 'The blow when moving water is stopped suddenly. It works the ram and can burst pipes.',
      },
      { term: 'surge', meaning: 'The rise and fall of the standpipe’s level when the flow starts or stops.' },
      { term: 'freeboard', meaning: 'How far the standpipe’s top stands above the highest level in it.' },
      { term: 'blocked', meaning: 'With the delivery shut while the ram beats: the highest pressure there can be.' },
      {
        term: 'rating, pressure class',
        meaning: 'The pressure a pipe is made for, at a stated temperature; warm plastic bears less.',
      },
      {
        term: 'D’Aubuisson’s efficiency',
        meaning: 'Work done on the delivered water over work given by all the falling water: q h / (Q H).',
      },
      {
        term: 'Rankine’s efficiency',
        meaning: 'The same counted from the source’s level: q (h − H) / ((Q − q) H). Never more than D’Aubuisson’s.',
      },
      {
        term: 'Darcy friction factor',
        meaning: 'A number that says how rough the flow finds the pipe. From bore, roughness, speed and temperature.',
      },
      {
        term: 'Reynolds number',
        meaning: 'Says whether flow is smooth (below about 2000) or turbulent (above about 4000).',
      },
    ],
  },
  {
    title: 'The ground',
    entries: [
      { term: 'DEM', meaning: 'Digital elevation model: a grid of heights. Any of the next two.' },
      { term: 'DTM', meaning: 'Digital terrain model: heights of the bare ground.' },
      { term: 'DSM', meaning: 'Digital surface model: heights of what a bird sees, trees and roofs included.' },
      { term: 'lidar', meaning: 'Measuring ground heights by laser from an aircraft.' },
      { term: 'cell', meaning: 'One square of the grid.' },
      { term: 'nodata, void', meaning: 'A cell without a height.' },
      { term: 'datum', meaning: 'What zero means: the level that heights are counted from.' },
      {
        term: 'CRS, EPSG code',
        meaning:
          'Coordinate reference system: what the numbers of a place mean; the EPSG registry gives each a number.',
      },
      { term: 'hillshade', meaning: 'The ground drawn as if lit from one side.' },
      { term: 'contour', meaning: 'A line along which the ground has one height.' },
      { term: 'profile', meaning: 'The ground along a route, drawn from the side.' },
      {
        term: 'spread, ±',
        meaning: 'How far a number may be off. Low, likely and high are the 10th, 50th and 90th of a hundred.',
      },
      {
        term: 'level (noun)',
        meaning: 'An instrument, a tube of water or a laser for measuring how much higher one place is than another.',
      },
      {
        term: 'OK, check on site, fails',
        meaning:
          'The three verdicts. OK: the limit is kept almost surely. Check on site: the elevation file cannot tell, a measurement can. Fails: the limit is broken almost surely.',
      },
    ],
  },
];

function chapter({ title, entries }: GlossaryPart): string {
  const rows = entries.map((entry) => `| ${entry.term} | ${meaningFor(entry, null)} |\n`).join('');
  return `## ${title}\n\n| term | meaning |\n|---|---|\n${rows}`;
}

/** The glossary as a Markdown document, docs/glossary.md. */
export function glossaryDocument(): string {
  const opening = `# Glossary

Plain words for the terms of the trade, in the order in which the water meets them; then the words for pressure, and the words
for the ground. Written by \`node scripts/glossary-doc.mjs\` from the words that the page shows under “Help”.
`;
  return [opening, ...GLOSSARY.map(chapter)].join('\n');
}
