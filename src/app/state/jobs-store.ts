import { computed, signal } from '@preact/signals';
import type { Ground } from '../../evaluation/evaluate/evaluate.ts';
import { pipeChoices } from '../../evaluation/evaluate/pipe-choices.ts';
import { classStretches } from '../../evaluation/evaluate/pipe-classes.ts';
import { pumpSizes } from '../../evaluation/evaluate/pump-sizes.ts';
import { accuracyFor } from '../../evaluation/site/heights.ts';
import type { ImportChoices } from '../../plan/exchange/import-choices.ts';
import type { ImportPreview } from '../../plan/exchange/import-preview.ts';
import type { Plan, PointId, RouteId, RouteRole } from '../../plan/model/plan.ts';
import type { CandidateOrder } from '../../report/tables/candidates.ts';
import type { NoProposal } from '../../report/words/proposal-words.ts';
import type { ProposalGround, ProposedRoute } from '../../siting/lines/route-proposal.ts';
import type { Problem } from '../../units/outcome.ts';
import type { Metres } from '../../units/quantity.ts';
import { evaluation, grounded, history, terrain } from './store.ts';

/** What is going on with a file of points and lines. */
export type ImportState =
  | { readonly kind: 'idle' }
  | {
      readonly kind: 'choosing';
      readonly preview: ImportPreview;
      readonly choices: ImportChoices;
      /** Why what is chosen cannot be added. */
      readonly problems: readonly Problem[];
    }
  | { readonly kind: 'refused'; readonly file: string; readonly problems: readonly Problem[] };

export const importing = signal<ImportState>({ kind: 'idle' });

/** The tables that a plan is worked out with. */
export type JobName = 'place' | 'tanks' | 'pipe' | 'sizes' | 'year' | 'alternatives';

export const job = signal<JobName>('tanks');
/** Whether the tables have more of the page's width than the other panels. */
export const broad = signal(false);
export const candidateOrder = signal<CandidateOrder>('verdict');
/** Whether the delivery lines of all candidates lie over each other in the profile. */
export const overlaid = signal(false);
/** The line whose sizes of pipe are looked through; null takes the first. */
export const sizedRoute = signal<RouteId | null>(null);

/** Which line is looked for, and where its ends stood. */
export interface SearchedLine {
  readonly role: RouteRole;
  readonly from: PointId;
  readonly to: PointId;
  readonly ends: readonly [Plan['points'][number]['position'], Plan['points'][number]['position']];
}

export type LineSearch =
  | { readonly kind: 'looking'; readonly line: SearchedLine; readonly followed: number; readonly stop: AbortController }
  | {
      readonly kind: 'found';
      readonly line: SearchedLine;
      readonly routes: readonly ProposedRoute[];
      readonly ground: ProposalGround;
      readonly shown: number;
    }
  | {
      readonly kind: 'none';
      readonly line: SearchedLine;
      readonly why: NoProposal;
      /** The best line with the trench that it needs, where there is one and it can be dug. */
      readonly anyway: { readonly route: ProposedRoute; readonly trench: Metres } | null;
    }
  | { readonly kind: 'failed'; readonly line: SearchedLine; readonly reason: string };

export const askedSearch = signal<LineSearch | null>(null);

/** The search for a line while it still belongs to the plan: its ends stand where they stood and nothing joins them yet. */
export const lineSearch = computed<LineSearch | null>(() => {
  const search = askedSearch.value;
  if (search === null) return null;
  const { points, routes } = history.value.present;
  const { role, from, to, ends } = search.line;
  const at = (id: PointId) => points.find((point) => point.id === id)?.position;
  const drawn = routes.some((route) => route.role === role && route.from === from && route.to === to);
  return at(from) === ends[0] && at(to) === ends[1] && !drawn ? search : null;
});

/** The newest plan on its ground, as the tables are reckoned from it; null before there is ground. */
export const onGround = computed<{ readonly plan: Plan; readonly ground: Ground } | null>(() => {
  const known = grounded.value;
  const about = terrain.value?.about;
  if (known === null || about === undefined) return null;
  return { plan: known.plan, ground: { ...known.ground, accuracy: accuracyFor(known.plan, about) } };
});

export const sizeTable = computed(() => {
  const known = onGround.value;
  return known && pumpSizes(known.plan, known.ground);
});

export const years = computed(() => evaluation.value?.years ?? null);

/** The line whose pipe is chosen, with every size of its series and the class that each stretch needs. */
export const pipeOfRoute = computed(() => {
  const known = onGround.value;
  const routes = known?.plan.routes ?? [];
  const route = routes.find(({ id }) => id === sizedRoute.value) ?? routes[0];
  if (known === null || route === undefined) return null;
  return {
    route,
    choices: pipeChoices(known.plan, known.ground, route.id),
    stretches: classStretches(known.plan, known.ground, route.id),
  };
});
