import type { PipeChoices } from '../../evaluation/evaluate/pipe-choices.ts';
import type { ClassStretch } from '../../evaluation/evaluate/pipe-classes.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import type { PipeId, Plan, RouteRole } from '../../plan/model/plan.ts';
import type { UnitSystem } from '../../units/kind.ts';
import { writeQuantity, writeRange } from '../../units/write-quantity.ts';
import { spelled } from './spelling.ts';

/** What a pipe of the plan is called: the label of its row in the handbook, or the user's own. */
export function pipeWords(plan: Plan, id: PipeId): string {
  const pipe = plan.pipes.find((candidate) => candidate.id === id);
  if (pipe === undefined) return id;
  return pipe.kind === 'own' ? pipe.label : spelled(pipeRow(pipe.row)?.label ?? pipe.row, plan.units);
}

/** What is suggested for a route and by which rule. */
export function suggestionSentence({ suggested, otherMaterial }: PipeChoices, role: RouteRole): string {
  const rule = ENOUGH[role]();
  const said =
    suggested === null ? `No size of this series ${rule}.` : `${suggested.label} is the smallest that ${rule}.`;
  return otherMaterial ? `Plastic takes the edge off every beat, so steel is shown. ${said}` : said;
}

/** What makes a size enough. */
const ENOUGH: Readonly<Record<RouteRole, () => string>> = {
  delivery: () => {
    const { value, source } = criterion('friction-share-most');
    return `keeps friction within ${writeQuantity(value, 'share', 'metric')} of the lift and stands the pressure (${source})`;
  },
  gravity: () => 'fills the trough as it is drunk from and stands the pressure',
  supply: () => 'brings what the pump takes without drawing air',
  drive: () => 'suits the pump and its fall',
};

/** A stretch of a route and the lightest class that stands the pressure there, in words. */
interface ClassStretchWords {
  readonly where: string;
  readonly pipe: string;
  readonly pressure: string;
}

/** Where along a route each class of pipe is enough. */
export function classStretchWords(
  { from, to, row, unrated, most }: ClassStretch,
  units: UnitSystem,
): ClassStretchWords {
  return {
    where: writeRange(from, to, 'length', units),
    pipe: unrated
      ? 'no rating for water this warm: take another material'
      : row === null
        ? 'no pipe of the handbook of this size'
        : spelled(pipeRow(row)?.label ?? row, units),
    pressure: `up to ${writeQuantity(most, 'pressure', units)}`,
  };
}

/** A roughness: a few hundredths of a millimetre at most, so it is written to two significant digits. */
export function roughnessWords(metres: number, units: UnitSystem): string {
  return writeQuantity(metres, 'bore', units);
}
