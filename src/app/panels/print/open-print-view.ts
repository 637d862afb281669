import { effect } from '@preact/signals';
import { h, render } from 'preact';
import { pumpFacts } from '../../../diagnosis/pump-facts.ts';
import { CAUSE_NAMES, chanceFigure } from '../../../diagnosis/words/cause-names.ts';
import { PRESSURE_CAUTION } from '../../../diagnosis/words/note-words.ts';
import { remedyWords } from '../../../diagnosis/words/remedy-words.ts';
import { TEST_WORDS } from '../../../diagnosis/words/test-words.ts';
import type { Evaluation } from '../../../evaluation/result/evaluation.ts';
import { accuracyFor } from '../../../evaluation/site/heights.ts';
import type { Plan } from '../../../plan/model/plan.ts';
import type { FigureNode } from '../../../report/figure/figure-node.ts';
import { systemsFigure } from '../../../report/figure/systems-figure.ts';
import { planMapFigure } from '../../../report/plan-map/plan-map-figure.ts';
import { comparisonSheet } from '../../../report/print/comparison-sheet.ts';
import { engineerAppendix } from '../../../report/print/engineer-appendix.ts';
import { mapBounds } from '../../../report/print/map-part.ts';
import { ownerReport } from '../../../report/print/owner-report.ts';
import type { PrintSource } from '../../../report/print/print-source.ts';
import { visitSheet } from '../../../report/print/visit-sheet.ts';
import { pumpSheets } from '../../../report/upkeep/pump-sheets.ts';
import { frontAxes } from '../../../report/words/place-words.ts';
import { PROGRAM_ABOUT } from '../../../report/words/safe-file-name.ts';
import { DAY_S, FOOT_M } from '../../../units/factor.ts';
import { UNITS } from '../../../units/unit.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { comparedPair, laidOver } from '../../actions/comparison.ts';
import { today } from '../../actions/plan-file-actions.ts';
import type { GroundedPlan } from '../../client/ground-feed.ts';
import { pageAddress } from '../../files/link-actions.ts';
import { diagnosisFound } from '../../state/diagnosis-store.ts';
import { onGround } from '../../state/jobs-store.ts';
import { placeSearch, reachLegend } from '../../state/place-store.ts';
import { evaluation, groundBusy, grounded, plan, terrain } from '../../state/store.ts';
import { shownAddress } from '../../state/tiles-state.ts';
import { PrintView } from './print-view.tsx';
import { reachPicture } from './reach-picture.ts';

let shut: (() => void) | null = null;

/** Which sheet: the owner's report, what stands behind it, what is taken along to the site, or two plans side by side. */
export type PrintKind = 'owner' | 'engineer' | 'visit' | 'comparison' | 'pump';

const WORDS: Readonly<Record<PrintKind, string>> = {
  owner: 'Report',
  engineer: 'Engineer’s appendix',
  visit: 'Site visit sheet',
  comparison: 'Two plans side by side',
  pump: 'Sheets for the pump',
};

/**
 * Shows a sheet of the plan at hand over the page, ready to print; the page behind rests until it is closed.
 * The sheet is a picture of this moment: it does not follow later edits.
 * Waits for the ground where it is still being read. False where there is nothing to print yet.
 */
export async function openPrintView(kind: PrintKind): Promise<boolean> {
  await groundAtRest();
  const sheet = kind === 'comparison' ? await comparison() : kind === 'pump' ? sheetsOfPump() : await onePlan(kind);
  if (sheet === null) return false;
  shut?.();
  const place = document.createElement('div');
  place.className = 'print-place';
  const before = document.activeElement;
  const others = [...document.body.children].filter((child) => child instanceof HTMLElement && !child.inert);
  for (const other of others) other.toggleAttribute('inert', true);
  document.body.append(place);
  const onClose = () => {
    shut = null;
    render(null, place);
    place.remove();
    for (const other of others) other.toggleAttribute('inert', false);
    if (before instanceof HTMLElement) before.focus();
  };
  shut = onClose;
  render(h(PrintView, { words: WORDS[kind], sheet, onClose }), place);
  return true;
}

const SHEETS = { owner: ownerReport, engineer: engineerAppendix, visit: visitSheet } as const;

async function onePlan(kind: keyof typeof SHEETS): Promise<FigureNode> {
  const source = printSource(await contoursAround(plan.value));
  return SHEETS[kind](kind === 'engineer' ? { ...source, found: await foundNow(source) } : source);
}

/** Causes on the fault sheet. */
const FAULTS = 5;

/** What goes with the pump at work; null without ground. */
function sheetsOfPump(): FigureNode | null {
  const known = onGround.value;
  if (known === null) return null;
  const source = printSource([]);
  const found = diagnosisFound.value;
  const diagnosis = found?.ok === true ? found.diagnosis : null;
  const [next] = diagnosis?.next ?? [];
  return pumpSheets(source, {
    facts: pumpFacts(known.plan, known.ground),
    faults: (diagnosis?.causes ?? []).slice(0, FAULTS).map(({ code, chance, remedy }) => ({
      code,
      name: CAUSE_NAMES[code],
      chance: chanceFigure(chance),
      remedy: remedyWords(remedy, source.units),
    })),
    next: next === undefined ? null : TEST_WORDS[next.test.code],
    caution: PRESSURE_CAUTION,
  });
}

/** Both plans in the order of the desk; null where one of them is not reckoned. */
async function comparison(): Promise<FigureNode | null> {
  const pair = comparedPair.value;
  const other = laidOver.value;
  if (pair === null || other === null) return null;
  const [first, second] = [pair.one, pair.other].map(({ plan }) => plan);
  const contours = first === undefined ? [] : await contoursAround(first, second);
  const here = printSource(contours);
  const there = { ...here, plan: other.grounded.plan, site: siteOf(other.grounded, other.evaluation) };
  if (here.site === null || there.site === null) return null;
  const shown = { ...here, site: here.site };
  const beside = { ...there, site: there.site };
  const order = first === shown.plan ? { one: shown, other: beside } : { one: beside, other: shown };
  return comparisonSheet({ ...order, drawn: pair.drawn });
}

/** Resolves once no ground is being read. */
function groundAtRest(): Promise<void> {
  return new Promise((resolve) => {
    const stop = effect(() => {
      if (groundBusy.value) return;
      queueMicrotask(() => {
        stop();
        resolve();
      });
    });
  });
}

/** Contours of the ground around a plan, or two; none where there is no ground, or where the terrain gives none. */
async function contoursAround(shown: Plan, beside?: Plan): Promise<PrintSource['contours']> {
  const bounds = mapBounds(shown, beside);
  if (bounds === null || terrain.value === null) return [];
  try {
    return await terrain.value.areaContours(bounds, shown.units);
  } catch (error) {
    // A sheet without contours is still a sheet.
    console.warn(error);
    return [];
  }
}

/** What the page knows now. */
function printSource(contours: PrintSource['contours']): PrintSource {
  const shown = plan.value;
  return {
    plan: shown,
    units: shown.units,
    site: siteNow(),
    contours,
    program: PROGRAM_ABOUT,
    date: today(),
    planner: pageAddress(),
    ...(shownAddress.value === null ? {} : { tilesAttribution: shown.mapTiles?.attribution ?? '' }),
  };
}

/** The ground of the plan as it is at rest; null until all of it is known. */
function siteNow(): PrintSource['site'] {
  const known = grounded.value;
  const result = evaluation.value;
  if (known === null || known.plan !== plan.value || result === null) return null;
  return siteOf(known, result);
}

function siteOf({ plan, ground }: GroundedPlan, evaluation: Evaluation): PrintSource['site'] {
  const about = terrain.value?.about;
  return about === undefined ? null : { ground: { ...ground, accuracy: accuracyFor(plan, about) }, about, evaluation };
}

type Found = NonNullable<PrintSource['found']>;

/** Figures of a search for a place that were reckoned: what would arrive where, and whole systems. */
async function foundNow({ plan: shown, units, contours }: PrintSource): Promise<Found> {
  return [...(await reachFigure(shown, units, contours)), ...systemsFound(shown)];
}

async function reachFigure(shown: Plan, units: Plan['units'], contours: PrintSource['contours']): Promise<Found> {
  const bounds = mapBounds(shown);
  const legend = reachLegend.value;
  const beneath = bounds && (await reachPicture(bounds));
  if (beneath === null || legend === null) return [];
  const figure = planMapFigure({
    plan: shown,
    units,
    contours,
    beneath,
    size: REACH_SIZE,
    labels: 'names',
    key: 'reach',
  });
  if (figure === null) return [];
  const lines = legend.lines.map(({ words }) => words).join('; ');
  const caption = `${legend.title}, from light to dark: ${legend.classes.join('; ')}. Dots: the line has low points; strokes: it passes a high point. ${lines}`;
  return [{ figure, caption: caption.trim() }];
}

function systemsFound({ units, materials }: Plan): Found {
  const search = placeSearch.value;
  if (search.kind !== 'found') return [];
  const { systems, outlay } = search.answer;
  const axes = frontAxes(outlay, materials.currency);
  const us = units === 'us';
  const length = us ? FOOT_M : 1;
  const volume = UNITS[us ? 'usGallonPerDay' : 'litrePerDay'].factor * DAY_S;
  const figure = systemsFigure({
    title: 'Whole systems: what arrives a day against what they take',
    // In the units shown, so that the axes have round numbers.
    points: systems.map(({ pipe, cost, delivery: { low, likely, high } }) => ({
      x: outlay === 'metres' ? pipe / length : (cost ?? 0),
      low: low / volume,
      likely: likely / volume,
      high: high / volume,
    })),
    size: SYSTEMS_SIZE,
    axes,
    words: {
      x: (value) => (outlay === 'metres' ? writeQuantity(value * length, 'length', units) : String(value)),
      y: (value) => writeQuantity(value * volume, 'daily-volume', units),
    },
  });
  const caption = `Whole systems that were found: ${axes.y} against ${axes.x}, with the range 8 times in 10. The numbers are those of the list in the planner.`;
  return figure === null ? [] : [{ figure, caption }];
}

const SYSTEMS_SIZE = { width: 680, height: 260 } as const;
const REACH_SIZE = { width: 680, mostHeight: 420 } as const;
