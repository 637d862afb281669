import type { RouteRole } from '../../plan/model/plan.ts';
import type { MapTheme } from '../state/map-view-props.ts';

/** Colours of the map; those that the page has too are the same as in its style sheet. */
export interface MapColours {
  readonly paper: string;
  readonly sheet: string;
  readonly ink: string;
  readonly inkSoft: string;
  readonly rule: string;
  readonly focus: string;
  readonly routes: Readonly<Record<RouteRole, string>>;
  readonly contour: string;
  readonly contourIndex: string;
  readonly contourHalo: string;
  readonly void: string;
}

export const MAP_COLOURS: Readonly<Record<MapTheme, MapColours>> = {
  light: {
    paper: '#efebe0',
    sheet: '#fbf9f2',
    ink: '#1c2630',
    inkSoft: '#4b555d',
    rule: '#857d6a',
    focus: '#9a3412',
    routes: { supply: '#14607f', drive: '#6b2a71', delivery: '#a0420a', gravity: '#1b6b50' },
    contour: '#7c5d33',
    contourIndex: '#664a25',
    contourHalo: '#f6f2e6',
    void: '#6a6255',
  },
  dark: {
    paper: '#10161a',
    sheet: '#182127',
    ink: '#ece7da',
    inkSoft: '#b6b9b4',
    rule: '#7d8a90',
    focus: '#ffb27a',
    routes: { supply: '#7fc8e0', drive: '#d7a3e0', delivery: '#f3a76f', gravity: '#86d3b3' },
    contour: '#a08a68',
    contourIndex: '#c9ab78',
    contourHalo: '#1b252c',
    void: '#8d9499',
  },
};
