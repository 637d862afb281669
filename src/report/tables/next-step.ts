import type { Plan, PointRole } from '../../plan/model/plan.ts';
import { ROUTE_WORDS } from '../words/role-words.ts';
import { type ProposableLine, proposableLines } from './proposable-lines.ts';

/** The one thing to do next until a plan is whole. */
export type NextStep =
  | { readonly do: 'place'; readonly role: PointRole }
  | { readonly do: 'water' }
  | { readonly do: 'herd' }
  | { readonly do: 'line'; readonly line: ProposableLine }
  | { readonly do: 'lines'; readonly lines: readonly ProposableLine[] }
  | { readonly do: 'pump' };

/**
 * What a plan needs next, in the order in which the water passes it: the source and what it gives, the pump, where the water goes
 * and who drinks, the lines, and a pump that is chosen. Null once nothing is missing.
 */
export function nextStep(plan: Plan): NextStep | null {
  const has = (role: PointRole) => plan.points.some((point) => point.role === role);
  if (!has('source')) return { do: 'place', role: 'source' };
  if (plan.yieldReadings.length === 0) return { do: 'water' };
  if (!has('pump')) return { do: 'place', role: 'pump' };
  if (!has('tank') && !has('trough')) return { do: 'place', role: 'tank' };
  if (plan.herd.length === 0) return { do: 'herd' };
  const lines = proposableLines(plan).filter(({ role }) => role !== 'gravity');
  const [first] = lines.filter(({ role }) => role !== 'delivery');
  if (first !== undefined) return { do: 'line', line: first };
  const deliveries = lines.filter(({ role }) => role === 'delivery');
  const [only] = deliveries;
  if (deliveries.length > 1) return { do: 'lines', lines: deliveries };
  if (only !== undefined) return { do: 'line', line: only };
  return plan.pump === null ? { do: 'pump' } : null;
}

const PLACES: Readonly<Record<PointRole, string>> = {
  source: 'place the source',
  standpipe: 'place the standpipe',
  pump: 'place the pump, lower than the source',
  tank: 'place a tank where the water should go',
  trough: 'place a trough',
};

/** The step in a few words, as a button says it. */
export function nextStepWords(step: NextStep): string {
  switch (step.do) {
    case 'place':
      return PLACES[step.role];
    case 'water':
      return 'say what the source gives';
    case 'herd':
      return 'say which animals drink';
    case 'line':
      return `find a ${ROUTE_WORDS[step.line.role].name.toLowerCase()} to ${step.line.to.name}`;
    case 'lines':
      return `find delivery lines to all ${step.lines.length} tanks`;
    case 'pump':
      return 'choose a pump';
  }
}
