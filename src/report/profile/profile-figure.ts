import { valueAt } from '../../units/value-at.ts';
import { type FigureNode, figureNode, tidy } from '../figure/figure-node.ts';
import { distanceChain, heightStaff, staffBox } from './profile-axes.ts';
import { alongGround, groundOf, voidHatch, voidWordBoxes } from './profile-ground.ts';
import { blockStations, blockTurnings, MarkRoom, stationMark, turningMarks } from './profile-marks.ts';
import { profileReading } from './profile-reading.ts';
import { type ProfileScale, profileScale, USUAL_ROWS } from './profile-scale.ts';
import type { ProfileLeg, ProfileStation, ProfileView } from './profile-view.ts';

/**
 * The pipe of one leg: along the ground, and upright at each end to the water or valve level there. Its role shows in its
 * dash as well as in its colour.
 */
function pipeOf(leg: ProfileLeg, stations: readonly ProfileStation[], scale: ProfileScale): FigureNode {
  const ends = stations.filter(
    (station) => station.at === leg.offset || station.at === leg.offset + leg.ground.horizontal,
  );
  return figureNode(
    'g',
    { class: `pipe ${leg.role} ${leg.emphasis}`, 'data-route': leg.id },
    figureNode('path', {
      class: 'pipe-line',
      d: alongGround(leg, scale) + ends.map((end) => upright(end, scale)).join(''),
    }),
    ...(leg.emphasis === 'alternative' ? rings(leg, scale) : []),
  );
}

const RING = 3.5;

/** Where another plan has the ends of a line; those that are alike lie beneath the symbols of this one. */
function rings({ ground, offset }: ProfileLeg, scale: ProfileScale): FigureNode[] {
  const { at, known } = ground;
  return [0, at.length - 1].flatMap((end) => {
    const [along, height] = [at[end], ground.ground[end]];
    if (along === undefined || height === undefined || known[end] !== 1) return [];
    return [figureNode('circle', { class: 'other-end', cx: scale.x(offset + along), cy: scale.y(height), r: RING })];
  });
}

function upright(station: ProfileStation, scale: ProfileScale): string {
  if (station.ground === null || station.level === null || station.ground === station.level) return '';
  const x = tidy(scale.x(station.at));
  return `M${x} ${tidy(scale.y(station.ground))}L${x} ${tidy(scale.y(station.level))}`;
}

/** The water of one leg: the line to which it would rise in open pipes while running, and its level at rest. */
function waterOf(leg: ProfileLeg, scale: ProfileScale): FigureNode | null {
  const running = leg.result?.running ?? null;
  const still = leg.result?.still ?? null;
  if (running === null && still === null) return null;
  return figureNode(
    'g',
    { class: 'water', 'data-route': leg.id },
    still === null ? null : stillLine(leg, still, scale),
    running === null ? null : runningLine(leg, running, scale),
  );
}

function stillLine(leg: ProfileLeg, still: number, scale: ProfileScale): FigureNode {
  const y = scale.y(still);
  const x1 = scale.x(leg.offset);
  const x2 = scale.x(leg.offset + leg.ground.horizontal);
  return figureNode('line', { class: 'still', x1, x2, y1: y, y2: y });
}

function runningLine(
  leg: ProfileLeg,
  running: { readonly at: readonly number[]; readonly head: readonly number[] },
  scale: ProfileScale,
): FigureNode {
  const points = running.at.map((at, index) => {
    return `${tidy(scale.x(leg.offset + at))},${tidy(scale.y(valueAt(running.head, index)))}`;
  });
  return figureNode('polyline', { class: 'running', points: points.join(' ') });
}

/**
 * The profile of one or several routes as a figure; docs/design.md describes its grammar. Null while there is no height to
 * draw. Colours, fonts and dashes come from the style sheet by class, so that one figure serves light, dark and print.
 */
export function profileFigure(view: ProfileView): FigureNode | null {
  const marked = markedProfile(view);
  if (marked === null) return null;
  const { scale } = marked;
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
    ...marked.marks,
    cursorOf(view, scale),
  );
}

interface MarkedProfile {
  readonly scale: ProfileScale;
  readonly marks: readonly FigureNode[];
}

/**
 * The profile with as few rows of names as leave every point named, from the left or from the right; on a narrow page more
 * rows are needed.
 */
function markedProfile(view: ProfileView): MarkedProfile | null {
  const most = Math.max(USUAL_ROWS, Math.min(MOST_ROWS, view.stations.length + 2));
  for (let rows = USUAL_ROWS; ; rows += 1) {
    const scale = profileScale(view, rows);
    if (scale === null) return null;
    const ways = [view.stations, view.stations.toReversed()].map((order) =>
      marksOf({ ...view, stations: order }, scale, rows),
    );
    const [best] = ways.toSorted((one, other) => one.unnamed - other.unnamed);
    if (best !== undefined && (best.unnamed === 0 || rows >= most)) return { scale, marks: best.marks };
  }
}

const MOST_ROWS = 8;

/** Summits, sags and points: every mark has its room before the first label looks for one. */
function marksOf(view: ProfileView, scale: ProfileScale, rows: number): { marks: FigureNode[]; unnamed: number } {
  const { plot } = scale;
  const room = new MarkRoom({ left: 0, top: 0, width: view.size.width, height: plot.top + plot.height });
  const legs = mainLegs(view);
  blockStations(view.stations, scale, room);
  for (const leg of legs) {
    blockTurnings(leg, scale, room);
    for (const box of voidWordBoxes(leg, scale)) room.block(box);
  }
  room.block(staffBox(scale));
  const stations = view.stations.flatMap((station) => stationMark(station, scale, { room, rows }, view.units) ?? []);
  const turnings = legs.flatMap((leg) => turningMarks(leg, scale, room, view.units));
  const unnamed = stations.filter(({ named }) => !named).length;
  return { marks: [...turnings, ...stations.map(({ node }) => node)], unnamed };
}

function mainLegs(view: ProfileView): ProfileView['legs'] {
  return view.legs.filter((leg) => leg.emphasis === 'main');
}

/** The cursor: a hairline at its distance, a ring on the ground and a dash on the water line. Its words stand outside the figure. */
function cursorOf(view: ProfileView, scale: ProfileScale): FigureNode | null {
  if (view.cursor === null) return null;
  const reading = profileReading(view, view.cursor);
  if (reading === null) return null;
  const x = scale.x(reading.at);
  return figureNode(
    'g',
    { class: 'cursor' },
    figureNode('line', { x1: x, x2: x, y1: scale.plot.top, y2: scale.plot.top + scale.plot.height }),
    reading.ground === null ? null : figureNode('circle', { cx: x, cy: scale.y(reading.ground), r: 4 }),
    reading.running === null
      ? null
      : figureNode('line', {
          class: 'at-water',
          x1: x - 6,
          x2: x + 6,
          y1: scale.y(reading.running),
          y2: scale.y(reading.running),
        }),
  );
}
