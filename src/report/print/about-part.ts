import { type FigureNode, figureNode } from '../figure-node.ts';
import type { PrintSource } from './print-source.ts';
import { list, part } from './sheet-node.ts';

/** Which program and data made the report. */
export function aboutPart({ program, date, site, plan }: PrintSource): FigureNode | null {
  const files = site?.about.files ?? plan.terrain?.files ?? [];
  return part(
    'Program and data',
    list([
      `${program.name} ${program.version}, with the tables of pipes, losses, needs and accuracies that belong to this version.`,
      ...(files.length > 0
        ? [
            `Elevation: ${files.join(', ')}${site === null ? ' (not open when this was made)' : ` (${site.about.size.columns} × ${site.about.size.rows} cells, ${site.about.crs})`}.`,
          ]
        : []),
      `Made on ${date}.`,
    ]),
    plan.mapTiles === null ? null : figureNode('p', { class: 'small' }, plan.mapTiles.attribution),
  );
}
