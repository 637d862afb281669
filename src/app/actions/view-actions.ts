import type { RouteId } from '../../plan/model/plan.ts';
import { hiddenMatch } from '../state/ground-match.ts';
import type { MapTheme, MapTool } from '../state/map-view-props.ts';
import {
  announcement,
  chosenWay,
  contours,
  cursor,
  helpOpen,
  hillshade,
  type PanelName,
  panel,
  pictureStrength,
  plansOpened,
  profileHeight,
  profileOpen,
  refusal,
  slopes,
  theme,
  tool,
} from '../state/store.ts';

const LEAST_PROFILE = 160;
const MOST_PROFILE = 620;
const THEME_KEY = 'rillwright-theme';

export function pickTool(next: MapTool): void {
  tool.value = next;
  refusal.value = [];
}

export function showPanel(name: PanelName): void {
  panel.value = name;
}

export function chooseWay(id: string | null): void {
  chosenWay.value = id;
}

export function showCursor(route: RouteId | null, at: number | null): void {
  cursor.value = route === null || at === null ? null : { route, at };
}

export function setPictureStrength(share: number): void {
  pictureStrength.value = share;
}

export function setHillshade(share: number): void {
  hillshade.value = share;
}

export function showContours(shown: boolean): void {
  contours.value = shown;
}

export function showSlopes(shown: boolean): void {
  slopes.value = shown;
}

export function setProfileHeight(pixels: number): void {
  profileHeight.value = Math.min(MOST_PROFILE, Math.max(LEAST_PROFILE, pixels));
}

export function openProfile(open: boolean): void {
  profileOpen.value = open;
}

export function openHelp(open: boolean): void {
  helpOpen.value = open;
}

export function say(words: string): void {
  announcement.value = words;
}

export function hideRefusal(): void {
  refusal.value = [];
}

/** Starts in the theme chosen before, else in that of the system. */
export function startTheme(): void {
  const stored = localStorage.getItem(THEME_KEY);
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  applyTheme(stored === 'light' || stored === 'dark' ? stored : dark ? 'dark' : 'light');
}

export function switchTheme(): void {
  const next = theme.value === 'light' ? 'dark' : 'light';
  localStorage.setItem(THEME_KEY, next);
  applyTheme(next);
}

function applyTheme(next: MapTheme): void {
  document.documentElement.dataset.theme = next;
  theme.value = next;
}

/** Shows the whole plan on the map. */
export function fitPlan(): void {
  plansOpened.value += 1;
}

/** Says no more of a plan and a ground that do not belong together. */
export function hideMatch(key: string): void {
  hiddenMatch.value = key;
}
