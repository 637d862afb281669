import { accuracyClasses } from '../../terrain/accuracy/height-accuracy.ts';
import { NUGGET_RANGE_IN_CELLS, USUAL_DOUBT } from '../../terrain/accuracy/height-variogram.ts';
import type { HeightAccuracy } from '../../terrain/grid/ground.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { numberColumn, type ReportTable, textColumn } from '../tables/report-table.ts';
import { measurementWords, nameOf } from '../words/measure-words.ts';
import { classTitle, terrainNoteSentence } from '../words/terrain-note-words.ts';
import type { PrintedSite, PrintSource } from './print-source.ts';
import { list, paragraph, part, sheetTable, subpart } from './sheet-node.ts';

/** Which file the heights come from and how far they are trusted. */
export function groundSentence({ about, ground }: PrintedSite, units: UnitSystem): string {
  const cell = writeQuantity(ground.accuracy.cell, 'length', units);
  const datum = about.verticalDatum === null ? 'its height datum is not stated' : `heights in ${about.verticalDatum}`;
  return `Heights from ${about.files.join(', ')} (cells of ${cell}, ${about.crs}, ${datum}), trusted as: ${classTitle(ground.accuracy.id, units)}.`;
}

/** The elevation file: what it is, what it tells of itself, its spread with the constants, and what its cells smooth away. */
export function groundPart(source: PrintSource): FigureNode | null {
  const { plan, units, site } = source;
  if (site === null) return null;
  const { about, ground } = site;
  const notes = [
    ...about.notes.map((note) => terrainNoteSentence(note, units)),
    ...[...ground.lines].flatMap(([id, line]) =>
      (line.notes ?? []).map((note) => `${nameOf(plan, id)}: ${terrainNoteSentence(note, units)}`),
    ),
  ];
  return part(
    'The elevation file',
    paragraph(groundSentence(site, units)),
    list(notes),
    subpart('Levels taken on site', list(plan.measurements.map((taken) => measurementWords(taken, plan, units)))),
    subpart('What its cells smooth away', list(smoothingSentences(source))),
    subpart(
      'Its spread',
      paragraph(spreadSentence(ground.accuracy, units)),
      sheetTable(constantRows(ground.accuracy, units)),
    ),
  );
}

/** Where the constants of a spread come from. */
function spreadSentence({ id }: HeightAccuracy, units: UnitSystem): string {
  const known = accuracyClasses.find((each) => each.id === id);
  if (known === undefined) return 'As standard deviations, typed into the plan.';
  const single = writeQuantity(known.absolute, 'height', units);
  return `Constants of the accuracy class, as standard deviations. They are a calibration of published accuracies and not published themselves. Source of the published figure (${single} for a single height): ${known.source}.`;
}

function constantRows(accuracy: HeightAccuracy, units: UnitSystem): Omit<ReportTable, 'title'> {
  const { nugget, near, nearRange, far, farRange, placement, cell, quantum = 0 } = accuracy;
  const height = (value: number) => writeQuantity(value, 'height', units);
  const length = (value: number) => writeQuantity(value, 'length', units);
  const rows: readonly (readonly [string, string, string])[] = [
    [
      'Error of single cells',
      height(nugget),
      `fades within ${NUGGET_RANGE_IN_CELLS} cells (${length(cell * NUGGET_RANGE_IN_CELLS)})`,
    ],
    ['Error shared nearby', height(near), `fades over ${length(nearRange)}`],
    ['Error shared far and wide', height(far), `fades over ${length(farRange)}`],
    ['Where a drawn point really is', length(placement), 'on each axis; counts on slopes'],
    [
      'Smoothing that the cells may hide',
      `${accuracy.smoothingDoubt ?? USUAL_DOUBT} ×`,
      'the smoothing that the file itself shows',
    ],
    ...(quantum > 0 ? [['Step between stored heights', height(quantum), ''] as const] : []),
  ];
  return {
    columns: [textColumn('Constant'), numberColumn('Value'), textColumn('How it works')],
    rows: rows.map((cells) => ({ id: cells[0], cells })),
  };
}

/**
 * What averaging over cells does to fall, lifts and points, in words with its direction. Amounts that round to nothing in the
 * shown digits are left out.
 */
function smoothingSentences({ plan, units, site }: PrintSource): readonly string[] {
  if (site === null) return [];
  const height = (value: number) => writeQuantity(Math.abs(value), 'height', units);
  const shows = (value: number) => height(value) !== height(0);
  const { pump, tanks, points } = site.evaluation;
  const biased = [
    ...(pump === null ? [] : [{ what: 'the fall', bias: pump.fallBias }]),
    ...tanks.map(({ id, liftBias }) => ({ what: `the lift to ${nameOf(plan, id)}`, bias: liftBias })),
  ].filter(({ bias }) => shows(bias));
  const taken = [...site.ground.points.values()].some(({ averagingSpread }) => averagingSpread !== undefined);
  const sentences = ([1, -1] as const).flatMap((sign) => {
    const some = biased.filter(({ bias }) => bias * sign > 0).map(({ what, bias }) => `${what} by ${height(bias)}`);
    if (some.length === 0) return [];
    const [side, other] = sign > 0 ? ['larger', 'smaller'] : ['smaller', 'larger'];
    return [
      taken
        ? `The file’s cells make these look ${side} than they likely are, which is reckoned with: ${some.join(', ')}.`
        : `The file’s cells make these look ${side} than the ground’s own curves suggest: ${some.join(', ')}. Really they may be ${other}, by as much or more.`,
    ];
  });
  const curved = points.filter(({ smoothing }) => shows(smoothing));
  const heights = curved.map(({ id, smoothing }) => {
    return `${nameOf(plan, id)} ${height(smoothing)} too ${smoothing > 0 ? 'high' : 'low'}`;
  });
  return [
    ...sentences,
    ...(heights.length > 0
      ? [`Read from the file ${taken ? 'likely' : 'at least'} so far off: ${heights.join(', ')}.`]
      : []),
    ...(sentences.length + heights.length > 0 ? [taken ? TAKEN : NOT_TAKEN] : []),
  ];
}

const NOT_TAKEN = 'None of this is taken off the numbers; it widens their spread.';
const TAKEN =
  'This likely amount is taken off the heights, since springs and pumps stand at the bottom of the ground and tanks on top of it; how far it may be off widens their spread.';
