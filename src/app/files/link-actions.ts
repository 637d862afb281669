import { holdsPlan, MOST_LINK, planFragment, readPlanFragment } from '../../plan/exchange/plan-link.ts';
import { emptyPlan } from '../../plan/model/empty-plan.ts';
import { startWith } from '../actions/plan-file-actions.ts';
import { linkNote } from '../state/field-store.ts';
import { history, planFile, savedPlan } from '../state/store.ts';

/** The address of this page without what stands behind it. */
export function pageAddress(): string {
  return `${location.origin}${location.pathname}`;
}

/** Copies a link that carries the plan; says so where the plan is too large for one. */
export async function copyLink(): Promise<void> {
  const link = `${pageAddress()}${planFragment(history.value.present)}`;
  if (link.length > MOST_LINK) {
    linkNote.value = { kind: 'too-long', letters: link.length };
    return;
  }
  try {
    await navigator.clipboard.writeText(link);
    linkNote.value = { kind: 'copied', letters: link.length };
  } catch {
    linkNote.value = { kind: 'by-hand', link };
  }
}

/** Opens the plan that the address of the page carries, and takes it out of the address: from now on the page keeps it. */
export function openLink(): void {
  const read = readPlanFragment(location.hash);
  globalThis.history.replaceState(null, '', `${location.pathname}${location.search}`);
  if (!read.ok) {
    planFile.value = { kind: 'refused', names: ['The link'], problems: read.problems };
    return;
  }
  const plan = read.value;
  startWith(plan, false);
  // It is in no file of this device yet.
  savedPlan.value = emptyPlan({ name: plan.name, units: plan.units });
  linkNote.value = { kind: 'opened', files: plan.terrain?.files ?? [] };
}

/** A link may also be put into the address of a page that is open. */
export function watchLinks(): void {
  addEventListener('hashchange', () => {
    if (!holdsPlan(location.hash)) return;
    if (window.confirm('Open the plan of this link? The plan on the page is closed.')) openLink();
    else globalThis.history.replaceState(null, '', `${location.pathname}${location.search}`);
  });
}

export function hideLinkNote(): void {
  linkNote.value = null;
}
