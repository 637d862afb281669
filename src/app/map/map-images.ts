import type { Map as MapLibreMap } from 'maplibre-gl';
import type { PointRole } from '../../plan/model/plan.ts';
import type { FigureNode } from '../../report/figure/figure-node.ts';
import { roleSymbol } from '../../report/figure/role-symbol.ts';
import type { MapTheme } from '../state/map-view-props.ts';
import { MAP_COLOURS, type MapColours } from './map-colours.ts';

const ROLES: readonly PointRole[] = ['source', 'standpipe', 'pump', 'tank', 'trough'];
/** Device pixels to one CSS pixel in the stored images; enough for the sharpest screens in use. */
const DENSITY = 3;
const SYMBOL_SIDE = 26;
const MARK_SIDE = 14;
const HATCH_SIDE = 12;

/** Draws every image of the map for a theme and hands it over, replacing that of the theme before. */
export function setMapImages(map: MapLibreMap, theme: MapTheme): void {
  const colours = MAP_COLOURS[theme];
  for (const role of ROLES) setImage(map, role, symbolImage(role, colours));
  setImage(map, 'summit', markImage('M-5 3L0 -4L5 3Z', colours));
  setImage(map, 'sag', markImage('M-5 -3L0 4L5 -3Z', colours));
  setImage(map, 'void-hatch', hatchImage(colours));
}

function setImage(map: MapLibreMap, name: string, image: ImageData): void {
  if (map.hasImage(name)) map.updateImage(name, image);
  else map.addImage(name, image, { pixelRatio: DENSITY });
}

function canvasOf(side: number): CanvasRenderingContext2D {
  const canvas = document.createElement('canvas');
  canvas.width = side * DENSITY;
  canvas.height = side * DENSITY;
  const context = canvas.getContext('2d');
  if (!context) throw new Error('drawing context of a canvas: found none, expected one');
  context.scale(DENSITY, DENSITY);
  return context;
}

function imageOf(context: CanvasRenderingContext2D): ImageData {
  return context.getImageData(0, 0, context.canvas.width, context.canvas.height);
}

/** The symbol of the report on a disc of paper, so that it stands out on any ground. */
function symbolImage(role: PointRole, colours: MapColours): ImageData {
  const context = canvasOf(SYMBOL_SIDE);
  context.translate(SYMBOL_SIDE / 2, SYMBOL_SIDE / 2);
  context.lineJoin = 'round';
  context.lineCap = 'round';
  const { children } = roleSymbol(role);
  const parts = children.filter((child): child is FigureNode => typeof child !== 'string');
  context.strokeStyle = colours.sheet;
  context.lineWidth = 6;
  for (const part of parts) context.stroke(pathOf(part));
  context.strokeStyle = colours.ink;
  context.fillStyle = colours.sheet;
  context.lineWidth = 1.9;
  for (const part of parts) {
    if (part.attributes.class === 'body') context.fill(pathOf(part));
    context.stroke(pathOf(part));
  }
  return imageOf(context);
}

function pathOf({ tag, attributes }: FigureNode): Path2D {
  if (tag !== 'circle') return new Path2D(attributes.d ?? '');
  const path = new Path2D();
  path.arc(Number(attributes.cx), Number(attributes.cy), Number(attributes.r), 0, 2 * Math.PI);
  return path;
}

function markImage(outline: string, colours: MapColours): ImageData {
  const context = canvasOf(MARK_SIDE);
  context.translate(MARK_SIDE / 2, MARK_SIDE / 2);
  context.lineJoin = 'round';
  context.fillStyle = colours.sheet;
  context.strokeStyle = colours.ink;
  context.lineWidth = 1.4;
  context.fill(new Path2D(outline));
  context.stroke(new Path2D(outline));
  return imageOf(context);
}

/** Thin strokes that say "no heights here" on any ground. */
function hatchImage(colours: MapColours): ImageData {
  const context = canvasOf(HATCH_SIDE);
  context.fillStyle = colours.paper;
  context.globalAlpha = 0.7;
  context.fillRect(0, 0, HATCH_SIDE, HATCH_SIDE);
  context.globalAlpha = 0.75;
  context.strokeStyle = colours.void;
  context.lineWidth = 1;
  for (const shift of [-HATCH_SIDE, 0, HATCH_SIDE]) {
    context.beginPath();
    context.moveTo(shift, HATCH_SIDE);
    context.lineTo(shift + HATCH_SIDE, 0);
    context.stroke();
  }
  return imageOf(context);
}
