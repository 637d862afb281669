import type { Finding } from '../../evaluation/result/evaluation.ts';
import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import type { Plan } from '../../plan/model/plan.ts';
import type { QuantityKind } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { type FigureChild, type FigureNode, figureNode } from '../figure/figure-node.ts';
import { fitText } from '../figure/text-room.ts';
import { findingWords } from '../findings/finding-words.ts';
import { numberColumn, type ReportTable, textColumn, UNKNOWN } from '../tables/report-table.ts';
import { waterWays } from '../tables/water-ways.ts';
import { groupLabel } from '../words/animal-words.ts';
import { nameOf } from '../words/measure-words.ts';
import { shortCautions } from './cautions-part.ts';
import { mapBlock } from './map-part.ts';
import { shortBill } from './materials-part.ts';
import { measureTitles, sketchBox } from './measure-part.ts';
import type { PrintSource } from './print-source.ts';
import { MOST_TANKS, shownTanks, spokenTanks } from './print-source.ts';
import { profileBlock, SHORT_PROFILE_KEY, wayToTank } from './profiles-part.ts';
import { sheetFoot, sheetHead, verdictLine } from './sheet-head.ts';
import { inSpelling, numberedList, otherUnits, paragraph, part, sheetTable, strong } from './sheet-node.ts';
import { yearSentences } from './year-part.ts';

/** So many of each kind fit; the rest is in the appendix. */
const MOST = 2;
const MOST_STEPS = 3;
const FEW_STEPS = 4;
/** A name is cut to this width, and the plan's to the other, px at a size of 12. */
const NAME_ROOM = 180;
const LABEL_ROOM = 130;
const TITLE_ROOM = 330;
const NAME_SIZE = 12;
/** Room for the map where much is to be said, and where little is. */
const MAP_HEIGHT = { full: 204, free: 276 } as const;
const PROFILE_HEIGHT = 186;

/** The owner’s two pages: what it does and brings, what to do; what it costs, how it lies, what to mind. */
export function ownerReport(given: PrintSource): FigureNode {
  const source = { ...given, plan: withShortNames(given.plan) };
  return inSpelling(figureNode('article', { class: 'report owner-report' }, pageOne(source), pageTwo(source)), source);
}

function pageOne(source: PrintSource): FigureNode {
  const { site } = source;
  const job = jobSentences(source).join(' ');
  const steps = nextSteps(source);
  const free = site !== null && site.evaluation.answer.runs.because === null && spokenTanks(source).length < 2;
  return figureNode(
    'div',
    { class: 'owner-page page-one' },
    sheetHead(source, 'Report'),
    job === '' ? null : paragraph(job),
    verdictLine(source, site?.evaluation ?? null),
    mapBlock(source, free && steps.length <= FEW_STEPS ? MAP_HEIGHT.free : MAP_HEIGHT.full, 'names'),
    part(
      'What it brings',
      sheetTable(numberRows(source), 'in-numbers'),
      ...yearSentences(source).map((sentence) => paragraph(sentence)),
    ),
    part('What to do next', numberedList(steps)),
  );
}

function pageTwo(source: PrintSource): FigureNode {
  return figureNode(
    'div',
    { class: 'owner-page page-two' },
    part('What it costs', ...shortBill(source)),
    part('How it lies', oneProfile(source)),
    part('What to mind', ...shortCautions()),
    part('Sketch and notes', sketchBox()),
    sheetFoot(source),
  );
}

/** The way to the tank that the report speaks of; without one the first whole way. */
function oneProfile(source: PrintSource): FigureNode | null {
  const [tank] = shownTanks(source);
  const way = (tank && wayToTank(source, tank.id)) ?? waterWays(source.plan)[0] ?? null;
  return way && profileBlock(source, way, 'profile', { height: PROFILE_HEIGHT, key: SHORT_PROFILE_KEY });
}

/** What comes after what the verdict says to do first: what fails as drawn, then what to measure. */
function nextSteps(source: PrintSource): readonly (readonly FigureChild[])[] {
  const { plan, units, site } = source;
  if (site === null) return [['Then print this again.']];
  const { answer, findings } = site.evaluation;
  const others = idsOfOthers(source);
  const first = answer.runs.because ?? answer.arrives.because;
  const told = (f: Finding) => first !== null && f.code === first.code && f.about === first.about;
  const failing = findings.filter((f) => f.verdict === 'fails' && !others.has(f.about) && !told(f));
  const remedies = failing.slice(0, MOST).map((finding): FigureChild[] => {
    const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
    return [strong(`${nameOf(plan, finding.about)}: `), words.remedy];
  });
  const measure = measureTitles(source);
  const titles = measure.slice(0, MOST_STEPS - remedies.length).map((title): FigureChild[] => [title]);
  const left = failing.length - remedies.length + measure.length - titles.length;
  const more = left > 0 ? [[`${left} more in the engineer’s appendix.`]] : [];
  return [
    ...remedies,
    ...titles,
    ...more,
    ['Ask for permits, and have buried services located before anything is dug.'],
  ];
}

/** Two pages have no room for the longest names; the appendix has them whole. */
function withShortNames(plan: Plan): Plan {
  const short = <Named extends { readonly name: string }>(all: readonly Named[]): Named[] =>
    all.map((each) => ({ ...each, name: fitText(each.name, NAME_SIZE, NAME_ROOM) }));
  return {
    ...plan,
    name: fitText(plan.name, NAME_SIZE, TITLE_ROOM),
    points: short(plan.points),
    routes: short(plan.routes),
  };
}

/** Tanks that the report does not speak of, with the lines to and from them; the appendix tells of those. */
function idsOfOthers(source: PrintSource): ReadonlySet<string> {
  const shown = shownTanks(source).map(({ id }) => id);
  const tanks = source.plan.points.filter((p) => p.role === 'tank' && !shown.includes(p.id)).map(({ id }) => id);
  const lines = source.plan.routes.filter(({ from, to }) => tanks.includes(from) || tanks.includes(to));
  return new Set([...tanks, ...lines.map(({ id }) => id)]);
}

/** What the plan is for, in a sentence or two: from where to where, and for whom. */
function jobSentences(source: PrintSource): readonly string[] {
  const { plan } = source;
  const named = (role: string) => plan.points.filter((p) => p.role === role).map(({ id }) => nameOf(plan, id));
  const [from] = named('source');
  const [pump] = named('pump');
  const spoken = spokenTanks(source).map(({ id }) => nameOf(plan, id));
  const candidates = named('tank').length;
  const ends = candidates > 0 ? named('tank') : named('trough');
  const lifted = pump === undefined ? '' : `, lifted by a ram pump at ${pump}`;
  const to = (spoken.length > 0 ? spoken : ends).slice(0, MOST_TANKS);
  const where = to.length > 0 ? ` to ${to.join(', ')}` : '';
  const way = from === undefined ? [] : [`Water from ${from}${lifted}${where}.`];
  const others =
    candidates > to.length ? [`Of ${candidates} places for a tank the others are in the engineer’s appendix.`] : [];
  const herd = herdWords(source);
  return [...way, ...others, ...(herd === '' ? [] : [`Animals to water: ${herd}.`])];
}

/** The herd as it was entered; empty without one. */
function herdWords({ plan, units }: PrintSource): string {
  const groups = plan.herd.map((group) => {
    const label = groupLabel(group, units);
    return `${group.count} × ${fitText(label, NAME_SIZE, LABEL_ROOM)}`;
  });
  const more = groups.length > MOST ? [`${groups.length - MOST} more kinds`] : [];
  return [...groups.slice(0, MOST), ...more].join(', ');
}

interface Told {
  readonly id: string;
  readonly what: string;
  readonly estimate: Estimate | null;
  readonly kind: QuantityKind;
}

/** The few numbers that an owner asks for, each with its spread and in the other units. */
function numberRows(source: PrintSource): Omit<ReportTable, 'title'> {
  const { units } = source;
  const other = otherUnits(units);
  return {
    columns: [
      textColumn('What'),
      numberColumn('Likely'),
      numberColumn('8 in 10 times between'),
      numberColumn('In other units'),
    ],
    rows: told(source).flatMap(({ id, what, estimate, kind }) => {
      if (estimate === null) return [];
      const { low, likely, high } = estimate;
      const spread = low === high ? UNKNOWN : writeRange(low, high, kind, units);
      const cells = [what, writeQuantity(likely, kind, units), spread, writeQuantity(likely, kind, other)];
      return [{ id, cells }];
    }),
  };
}

function told(source: PrintSource): readonly Told[] {
  const { plan, units, site } = source;
  if (site === null) return [];
  const { pump, source: water } = site.evaluation;
  const head: readonly Told[] = [
    { id: 'fall', what: 'Fall that drives the pump', estimate: pump?.fall ?? null, kind: 'height' },
    { id: 'available', what: 'Water that the source may give', estimate: water.available, kind: 'flow' },
    {
      id: 'takes',
      what: pump === null || pump.count === 1 ? 'Water that the pump takes' : `Water that the ${pump.count} pumps take`,
      estimate: pump?.driveFlow ?? null,
      kind: 'flow',
    },
  ];
  const tanks = spokenTanks(source);
  const arriving = tanks.flatMap(({ id, lift, line, demandPerDay }): Told[] => {
    const name = nameOf(plan, id);
    const perDay = line?.deliveryPerDay ?? null;
    const need = demandPerDay === null ? null : { low: demandPerDay, likely: demandPerDay, high: demandPerDay };
    // Several tanks have a line each.
    if (tanks.length > 1) {
      const of = demandPerDay === null ? '' : `, of ${writeQuantity(demandPerDay, 'daily-volume', units)} needed`;
      return [{ id: `${id} day`, what: `${name} a day${of}`, estimate: perDay, kind: 'daily-volume' }];
    }
    return [
      { id: `${id} day`, what: `Arrives at ${name} a day`, estimate: perDay, kind: 'daily-volume' },
      { id: `${id} need`, what: `Needed at ${name} a day`, estimate: need, kind: 'daily-volume' },
      { id: `${id} lift`, what: `Lift from the pump to ${name}`, estimate: lift, kind: 'height' },
    ];
  });
  return arriving.length > 0 ? [...arriving, ...head] : [...head, ...troughsOf(source)];
}

/** Troughs stand for themselves where no pump lifts water to a tank. */
function troughsOf({ plan, site }: PrintSource): readonly Told[] {
  const troughs = (site?.evaluation.troughs ?? []).filter(({ flow }) => flow !== null).slice(0, MOST_TANKS);
  return troughs.flatMap(({ id, flow, needPerDay }): Told[] => {
    const name = nameOf(plan, id);
    const need = needPerDay === null ? null : { low: needPerDay, likely: needPerDay, high: needPerDay };
    return [
      { id: `${id} flow`, what: `Flow into ${name}, its valve open`, estimate: flow, kind: 'flow' },
      { id: `${id} need`, what: `Needed at ${name} a day`, estimate: need, kind: 'daily-volume' },
    ];
  });
}
