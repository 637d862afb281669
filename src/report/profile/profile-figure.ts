import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { TakenRoom } from '../figure/text-room.ts';
import { distanceChain, heightStaff } from './profile-axes.ts';
import { cursorOf } from './profile-cursor.ts';
import { groundOf, voidHatch } from './profile-ground.ts';
import { blockStations, stationMark, turningMarks } from './profile-marks.ts';
import { type ProfileScale, profileScale } from './profile-scale.ts';
import type { ProfileView } from './profile-view.ts';
import { pipeOf, waterOf } from './profile-water.ts';

/**
 * The profile of one or several routes as a figure; docs/design.md describes its grammar. Null while there is no height to
 * draw. Colours, fonts and dashes come from the style sheet by class, so that one figure serves light, dark and print.
 */
export function profileFigure(view: ProfileView): FigureNode | null {
  const scale = profileScale(view);
  if (scale === null) return null;
  const { width, height } = view.size;
  return figureNode(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'profile-figure',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': view.title,
    },
    figureNode('defs', {}, voidHatch(view.key)),
    ...mainLegs(view).map((leg) => groundOf(leg, scale, view.key)),
    heightStaff(scale),
    ...view.legs.map((leg) => pipeOf(leg, view.stations, scale)),
    ...mainLegs(view).map((leg) => waterOf(leg, scale)),
    distanceChain(scale),
    ...marks(view, scale),
    cursorOf(view, scale),
  );
}

function marks(view: ProfileView, scale: ProfileScale): (FigureNode | null)[] {
  const room = new TakenRoom({ left: 0, top: 0, width: view.size.width, height: scale.plot.top + scale.plot.height });
  blockStations(view.stations, scale, room);
  const stations = view.stations.map((station) => stationMark(station, scale, room, view.units));
  const turnings = mainLegs(view).flatMap((leg) => turningMarks(leg, scale, room, view.units));
  return [...turnings, ...stations];
}

function mainLegs(view: ProfileView): ProfileView['legs'] {
  return view.legs.filter((leg) => leg.emphasis === 'main');
}
