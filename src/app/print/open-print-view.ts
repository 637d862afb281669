import { effect } from '@preact/signals';
import { h, render } from 'preact';
import { accuracyFor } from '../../evaluation/plan-accuracy.ts';
import type { Plan } from '../../plan/plan.ts';
import { mapBounds } from '../../report/print/map-part.ts';
import type { PrintSource } from '../../report/print/print-source.ts';
import { PROGRAM_ABOUT } from '../../report/program-about.ts';
import { evaluation, groundBusy, grounded, plan, terrain } from '../state/store.ts';
import { type PrintKind, PrintView } from './print-view.tsx';

let shut: (() => void) | null = null;

/**
 * Shows a sheet of the plan at hand over the page, ready to print; the page behind rests until it is closed.
 * The sheet is a picture of this moment: it does not follow later edits.
 * Waits for the ground where it is still being read.
 */
export async function openPrintView(kind: PrintKind): Promise<void> {
  await groundAtRest();
  const source = printSource(await contoursAround(plan.value));
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
  render(h(PrintView, { kind, source, onClose }), place);
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

/** Contours of the ground around a plan; none where there is no ground, or where the terrain gives none. */
async function contoursAround(shown: Plan): Promise<PrintSource['contours']> {
  const bounds = mapBounds(shown);
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
  };
}

/** The ground of the plan as it is at rest; null until all of it is known. */
function siteNow(): PrintSource['site'] {
  const about = terrain.value?.about;
  const known = grounded.value;
  if (about === undefined || known === null || known.plan !== plan.value) return null;
  const { points, lines } = known.ground;
  const ground = { points, lines, accuracy: accuracyFor(known.plan, about) };
  return evaluation.value && { ground, about, evaluation: evaluation.value };
}

/** The day here, in the order that sorts. */
function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
