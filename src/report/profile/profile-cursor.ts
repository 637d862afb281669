import { type FigureNode, figureNode } from '../figure/figure-node.ts';
import { profileReading } from './profile-reading.ts';
import type { ProfileScale } from './profile-scale.ts';
import type { ProfileView } from './profile-view.ts';

/** The cursor: a hairline at its distance, a ring on the ground and a dash on the water line. Its words stand outside the figure. */
export function cursorOf(view: ProfileView, scale: ProfileScale): FigureNode | null {
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
