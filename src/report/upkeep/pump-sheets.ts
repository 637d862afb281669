import type { RunRecord } from '../../plan/model/plan.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { cautionsPart } from '../print/cautions-part.ts';
import { blank } from '../print/measure-part.ts';
import type { PrintSource } from '../print/print-source.ts';
import { sheetFoot, sheetHead } from '../print/sheet-head.ts';
import { inSpelling, list, numberedList, paragraph, part, sheetTable, subpart, written } from '../print/sheet-node.ts';
import { UNKNOWN } from '../tables/report-table.ts';
import { monthName } from '../tables/year-figure.ts';

/** What the sheets for a pump at work say of it; reckoned where the ram is known. */
export interface PumpSheetFacts {
  readonly fill: readonly {
    readonly name: string;
    readonly role: string;
    readonly volume: number;
    readonly time: number | null;
  }[];
  readonly drains: readonly { readonly line: string; readonly at: number; readonly holds: number }[];
  readonly start: {
    readonly gaugeRest: number;
    readonly gaugeRunning: number | null;
    readonly beatsPerMinute: number | null;
    readonly waste: number | null;
    readonly delivery: number | null;
    readonly leastBackPressure: number;
  } | null;
  readonly tuning: readonly {
    readonly month: number | null;
    readonly source: number;
    readonly weight: number;
    readonly beatsPerMinute: number;
    readonly intake: number;
    readonly delivery: number;
    readonly stopsBelow: number;
    readonly stopsAbove: number;
    readonly enough: boolean;
  }[];
  readonly parts: 'own' | 'usual';
}

/** A cause as the fault sheet tells it. */
export interface FaultLine {
  readonly code: string;
  readonly name: string;
  readonly chance: string;
  readonly remedy: string;
}

export interface PumpSheets {
  readonly facts: PumpSheetFacts;
  readonly faults: readonly FaultLine[];
  readonly next: string | null;
  /** How to open a ram without being hurt. */
  readonly caution: string;
}

/** The sheets that go with a pump at work: start-up and record, tuning card, upkeep, drain and frost list, fault sheet. */
export function pumpSheets(source: PrintSource, sheets: PumpSheets): FigureNode {
  const { facts } = sheets;
  return inSpelling(
    figureNode(
      'article',
      { class: 'report pump-sheets' },
      sheetHead(source, 'Sheets for the pump'),
      facts.parts === 'usual'
        ? paragraph(
            'The plan knows the pump by its sheet only: a usual ram of its bore stands for it where beats are told.',
            'small',
          )
        : null,
      part('Start-up', startUp(source, facts), wrongSigns()),
      part('Record', recordTable(source)),
      part('Tuning card', tuningCard(source, facts)),
      part('Upkeep', upkeep()),
      part('Drain and frost list', drainList(source, facts)),
      part('When something is wrong', faultSheet(sheets)),
      cautionsPart(),
      sheetFoot(source),
    ),
    source,
  );
}

function startUp({ units }: PrintSource, { fill, start }: PumpSheetFacts): FigureNode {
  const steps = [
    'Look at every joint; open the high-place vents; shut the delivery valve at the pump.',
    ...fill.map(
      ({ name, volume, time }) =>
        `Fill ${name}: it holds ${written(volume, 'volume', units)}${time === null ? '' : `, about ${written(time, 'duration', units)} at its flow`}. Let all air out.`,
    ),
    'Open the drive valve, push the waste valve down by hand a dozen times until it goes on by itself.',
    start === null
      ? 'Open the delivery valve little by little.'
      : `Open the delivery valve little by little; keep the gauge above ${written(start.leastBackPressure, 'height', units)} of head until the line is full.`,
    start === null
      ? 'Read the gauge at rest and running, and count the beats.'
      : `First readings to expect: gauge ${written(start.gaugeRest, 'height', units)} of head at rest, ${written(start.gaugeRunning, 'height', units)} running; ${start.beatsPerMinute === null ? UNKNOWN : Math.round(start.beatsPerMinute)} beats a minute; waste ${written(start.waste, 'flow', units)}, delivery ${written(start.delivery, 'flow', units)}.`,
  ];
  return numberedList(steps) ?? paragraph('');
}

function wrongSigns(): FigureNode | null {
  return subpart(
    'What a wrong sign means',
    list([
      'It stops at once with the waste valve shut: too little back pressure, the line is not full, or something leaks.',
      'It stays open and pours: too little water, a valve too heavy, or a clogged inlet.',
      'It knocks hard: the air chamber has no air; drain it and let air in.',
      'The beat is soft and slow: air in the drive pipe; hold the waste valve down for a minute.',
      'The gauge is higher at rest than the lift: air sits in a summit of the line.',
    ]),
  );
}

const RECORD_COLUMNS = [
  'Date, by',
  'Level',
  'Beats a minute',
  'Waste',
  'Delivery, where',
  'Gauge at rest',
  'Gauge running',
  'Swing',
  'Weight, stroke',
] as const;
/** Empty lines to be filled in by hand. */
const EMPTY_ROWS = 5;
const BLANK_DATE = '____-__-__';

function recordTable({ plan, units }: PrintSource): FigureNode | null {
  const rows = (plan.records ?? []).map((record, i) => ({ id: `record-${i}`, cells: recordCells(record, units) }));
  const empty = Array.from({ length: EMPTY_ROWS }, (_, i) => ({
    id: `empty-${i}`,
    cells: RECORD_COLUMNS.map((_, column) => (column === 0 ? BLANK_DATE : '\u00a0')),
  }));
  return sheetTable(
    { columns: RECORD_COLUMNS.map((name) => ({ name, numeric: false })), rows: [...rows, ...empty] },
    'records',
  );
}

function recordCells(record: RunRecord, units: PrintSource['units']): readonly string[] {
  const { beatsPerMinute } = record;
  return [
    record.by === '' ? record.date : `${record.date}, ${record.by}`,
    written(record.level, 'height', units),
    beatsPerMinute === null ? UNKNOWN : String(Math.round(beatsPerMinute)),
    written(record.waste, 'flow', units),
    record.delivery === null ? UNKNOWN : `${written(record.delivery, 'flow', units)} at the ${record.deliveryReadAt}`,
    written(record.gaugeRest, 'height', units),
    written(record.gaugeRunning, 'height', units),
    written(record.gaugeSwing, 'height', units),
    [written(record.valveWeight, 'mass', units), written(record.valveStroke, 'bore', units)].join(', '),
  ];
}

function tuningCard({ units }: PrintSource, { tuning }: PumpSheetFacts): FigureNode {
  if (tuning.length === 0)
    return paragraph('Without a reading of the source and a described pump there is nothing to tune by.');
  const flow = (value: number) => writeQuantity(value, 'flow', units);
  const rows = tuning.map((row, i) => ({
    id: `tuning-${i}`,
    cells: [
      row.month === null ? 'as read' : monthName(row.month),
      flow(row.source),
      `× ${row.weight.toFixed(2)}`,
      String(Math.round(row.beatsPerMinute)),
      flow(row.intake),
      flow(row.delivery),
      row.enough ? '' : 'too little water: it may stop',
    ],
  }));
  const [first] = tuning;
  const table = sheetTable(
    {
      columns: [
        { name: 'Month', numeric: false },
        { name: 'Source', numeric: true },
        { name: 'Weight of the waste valve', numeric: true },
        { name: 'Beats a minute', numeric: true },
        { name: 'Takes', numeric: true },
        { name: 'Delivers', numeric: true },
        { name: 'Mind', numeric: false },
      ],
      rows,
    },
    'tuning',
  );
  const ends =
    first === undefined
      ? null
      : paragraph(
          `It stops when set to take less than about ${flow(first.stopsBelow)} or more than about ${flow(first.stopsAbove)}; the settings keep away from both ends. Weights are shares of the present one; by the model of the beat, not measured. Change a little, count, and write it down.`,
          'small',
        );
  return figureNode('div', {}, ...[table, ends].filter((node) => node !== null));
}

function upkeep(): FigureNode | null {
  return list(
    [
      [
        'Every week: ',
        'clean the strainer at the source and at the drive pipe; look at the level and listen to the beat.',
      ],
      ['Every month: ', 'count the beats, catch waste and delivery, read the gauge; write them into the record.'],
      ['Every season: ', 'drain the air chamber and let air in; clear the snifter; tighten anchors and joints.'],
      ['Every year: ', 'look at the rubbers of waste and check valve and change them when worn; walk every line.'],
    ],
    'checklist',
  );
}

function drainList({ units }: PrintSource, { drains, fill }: PumpSheetFacts): FigureNode {
  const volume = (value: number) => writeQuantity(value, 'volume', units);
  const order =
    'Before frost: shut the source, open the delivery valve and the waste valve, let every line run out at its lowest end, drain the pump’s body and half the air chamber, and leave the drains open.';
  const rows = drains.map(({ line, at, holds }, i) => ({
    id: `drain-${i}`,
    cells: [line, writeQuantity(at, 'length', units), volume(holds), 'at the sag'],
  }));
  const table = sheetTable(
    {
      columns: [
        { name: 'Line', numeric: false },
        { name: 'From its start', numeric: true },
        { name: 'Keeps', numeric: true },
        { name: 'Let it out', numeric: false },
      ],
      rows,
    },
    'drains',
  );
  const whole = fill.reduce((sum, line) => sum + line.volume, 0);
  const none =
    rows.length === 0 ? paragraph('No line has a sag that keeps water: all of them run out at their ends.') : null;
  const sum = paragraph(`All lines together hold ${volume(whole)}.`, 'small');
  return figureNode('div', {}, ...[paragraph(order), table, none, sum].filter((node) => node !== null));
}

function faultSheet({ faults, next, caution }: PumpSheets): FigureNode {
  const items = faults.map(({ name, chance, remedy }) => [figureNode('strong', {}, `${name}: ${chance}. `), remedy]);
  return figureNode(
    'div',
    {},
    ...[
      paragraph(caution),
      items.length === 0 ? paragraph('Nothing has been read yet.') : numberedList(items),
      next === null ? null : paragraph(`Next: ${next}`),
      figureNode(
        'div',
        { class: 'blanks' },
        ...['Seen', 'Beats a minute', 'Level', 'Waste', 'Delivery', 'Gauge at rest', 'Gauge running'].map((name) =>
          blank(name, 'half'),
        ),
      ),
    ].filter((node) => node !== null),
  );
}
