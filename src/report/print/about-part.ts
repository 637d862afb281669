import { addressName, shownAddress } from '../../terrain/bytes/address-name.ts';
import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import type { PrintSource } from './print-source.ts';
import { list, part } from './sheet-node.ts';

/** Which program and data made the report. */
export function aboutPart({ program, date, site, plan, tilesAttribution }: PrintSource): FigureNode | null {
  const known = plan.terrain?.files ?? [];
  const files = (site?.about.files ?? known).map((file) => placeOf(file, known));
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
    tilesAttribution ? figureNode('p', { class: 'small' }, `Map on the screen: ${tilesAttribution}`) : null,
  );
}

/** The address of a file that was opened by its address, else its name. */
function placeOf(file: string, known: readonly string[]): string {
  return shownAddress(known.find((reference) => addressName(reference) === file) ?? file);
}
