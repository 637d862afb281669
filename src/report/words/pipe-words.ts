import { pipeRow } from '../../handbook/pipe-rows.ts';
import type { PipeId, Plan } from '../../plan/model/plan.ts';

/** What a pipe of the plan is called: the label of its row in the handbook, or the user's own. */
export function pipeWords(plan: Plan, id: PipeId): string {
  const pipe = plan.pipes.find((candidate) => candidate.id === id);
  if (pipe === undefined) return id;
  return pipe.kind === 'own' ? pipe.label : (pipeRow(pipe.row)?.label ?? pipe.row);
}
