import { MOST_LINK, planFragment } from '../../plan/exchange/plan-link.ts';
import { codeFigure } from '../figure/code-figure.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { figureNode } from '../figure/figure-node.ts';
import type { PrintSource } from './print-source.ts';
import { paragraph, part } from './sheet-node.ts';

const LOCAL = /^https?:\/\/(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?\//;

/** The plan as a code to photograph; nothing where nobody said at which address the planner is, or the plan is too large. */
export function codePart({ plan, planner }: PrintSource): FigureNode | null {
  if (planner === undefined) return null;
  const link = `${planner}${planFragment(plan)}`;
  const code =
    link.length > MOST_LINK ? null : codeFigure(link, 'Code to photograph: it opens the plan in the planner');
  if (code === null) return null;
  const local = LOCAL.test(planner) ? ' That address is this machine’s own: other machines cannot open it.' : '';
  return part(
    'The plan to photograph',
    figureNode('div', { class: 'code-block' }, code),
    paragraph(
      `A telephone’s camera opens the plan from this code at ${planner}, without sending it anywhere. It holds no ground: open the elevation file there, too.${local}`,
      'small',
    ),
  );
}
