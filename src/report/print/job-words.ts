import { herdRow } from '../../handbook/livestock-needs.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { nameOf } from '../words/measure-words.ts';
import type { PrintSource } from './print-source.ts';
import { shownTanks } from './shown-tanks.ts';

/** What the plan is for, in a sentence or two: from where to where, and for whom. */
export function jobSentences(source: PrintSource): readonly string[] {
  const { plan } = source;
  const named = (role: string) => plan.points.filter((p) => p.role === role).map(({ id }) => nameOf(plan, id));
  const [from] = named('source');
  const [pump] = named('pump');
  const tanks = shownTanks(source).map(({ id }) => nameOf(plan, id));
  const candidates = named('tank').length;
  const lifted = pump === undefined ? '' : `, lifted by a ram pump at ${pump}`;
  const to = tanks.length > 0 ? tanks : named('tank');
  const where = to.length > 0 ? ` to ${to.join(', ')}` : '';
  const way = from === undefined ? [] : [`Water from ${from}${lifted}${where}.`];
  const others =
    candidates > to.length ? [`${candidates} places for a tank were compared; they are in the details.`] : [];
  const herd = herdWords(plan);
  return [...way, ...others, ...(herd === '' ? [] : [`Animals to water: ${herd}.`])];
}

/** The herd as it was entered; empty without one. */
export function herdWords(plan: Plan): string {
  return plan.herd
    .map((group) => {
      const label = group.kind === 'own' ? group.label : (herdRow(group.row)?.label ?? group.row);
      return `${group.count} × ${label}`;
    })
    .join(', ');
}
