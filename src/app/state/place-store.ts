import { computed, signal } from '@preact/signals';
import type { Position } from '../../geodesy/position.ts';
import type { AreaId, Plan } from '../../plan/model/plan.ts';
import { type ReachLegend, reachLegendOf } from '../../report/words/reach-words.ts';
import type { NoReach } from '../../siting/reach/reach-of-plan.ts';
import type { SiteAnswer } from '../../siting/systems/site-answer.ts';
import type { ReachAbout } from '../../worker/messages.ts';
import type { ReachTiles } from '../client/tile-service.ts';
import { plan, terrain } from './store.ts';

/** The map of what would arrive: off, being made, shown, or why there is none. */
export type ReachState =
  | { readonly kind: 'off' }
  | {
      readonly kind: 'making';
      readonly stop: AbortController;
      readonly share: number;
      readonly shown: ReachAbout | null;
    }
  | { readonly kind: 'shown'; readonly about: ReachAbout }
  | { readonly kind: 'none'; readonly why: NoReach }
  | { readonly kind: 'failed'; readonly reason: string };

export const reach = signal<ReachState>({ kind: 'off' });

/** The reach map that can be looked at, also while a finer one is made. */
export const shownReach = computed<ReachAbout | null>(() => {
  const state = reach.value;
  return state.kind === 'shown' ? state.about : state.kind === 'making' ? state.shown : null;
});

/** The tiles of the reach map that is shown; a new key for every map. */
export const reachTiles = computed<ReachTiles | null>(() => {
  const about = shownReach.value;
  const opened = terrain.value;
  if (about === null || opened === null) return null;
  return {
    key: `${opened.key}-${about.key}`,
    reachTile: (spec, stop) => opened.reachTile(spec, stop),
  };
});

/** What the colours, patterns and lines of the reach map mean, in the units shown. */
export const reachLegend = computed<ReachLegend | null>(() => {
  const about = shownReach.value;
  return about && reachLegendOf({ ...about, units: plan.value.units });
});

/** The search for places and systems. */
export type PlaceSearchState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'looking'; readonly share: number; readonly stop: AbortController }
  | { readonly kind: 'found'; readonly answer: SiteAnswer }
  | { readonly kind: 'failed'; readonly reason: string };

export const placeSearch = signal<PlaceSearchState>({ kind: 'idle' });

/** Water is looked for so far above the source while no tank stands, m. */
export const wantedLift = signal(20);
/** How far above the stream the pump must stand, m. */
export const floodMark = signal(0.3);

/** Metres of the plan's delivery pipe that the user has and wants to use; null for any pipe. */
export const pipeAtHand = signal<number | null>(null);

/** Corners of an area that is being drawn, and the area that a gate is looked for. */
export const areaCorners = signal<readonly Position[]>([]);
export const gatedArea = signal<AreaId | null>(null);

/** A place or a system that is pointed at. */
export type Pointed = { readonly kind: 'place' | 'system'; readonly index: number } | null;

export const pointed = signal<Pointed>(null);
/** Systems that are to become alternatives, by their index; three at most. */
export const chosenSystems = signal<readonly number[]>([]);

/** The plan of what is pointed at, to lie on the map as a ghost. */
export const ghost = computed<Plan | null>(() => {
  const search = placeSearch.value;
  const at = pointed.value;
  if (search.kind !== 'found' || at === null) return null;
  const { places, systems } = search.answer;
  return (at.kind === 'place' ? places[at.index]?.plan : systems[at.index]?.plan) ?? null;
});
