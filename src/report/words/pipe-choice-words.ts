import type { PipeChoices } from '../../evaluation/evaluate/pipe-choices.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import type { RouteRole } from '../../plan/model/plan.ts';
import { writeQuantity } from '../../units/write-quantity.ts';

/** What is suggested for a route and by which rule. */
export function suggestionSentence({ suggested }: PipeChoices, role: RouteRole): string {
  if (role !== 'delivery') return 'Choose by the flow that arrives and by the pressure that the pipe stands.';
  const { value, source } = criterion('friction-share-most');
  const share = writeQuantity(value, 'share', 'metric');
  const rule = `keeps friction within ${share} of the lift and stands the pressure (${source})`;
  return suggested === null ? `No size of this series ${rule}.` : `${suggested.label} is the smallest that ${rule}.`;
}
