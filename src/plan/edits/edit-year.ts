import type { MonthOfYear, Plan } from '../model/plan.ts';
import { type Edit, refused } from './edit.ts';
import { finishEdit } from './finish-edit.ts';

const MONTHS = 12;

/** Fills all twelve months with the same; none empties the year. */
export function fillYear(plan: Plan, month: MonthOfYear | null): Edit {
  return setYear(plan, month === null ? [] : Array.from({ length: MONTHS }, () => month));
}

/** Changes one month, 0 for January. */
export function changeMonth(plan: Plan, index: number, changes: Partial<MonthOfYear>): Edit {
  const month = plan.year[index];
  if (month === undefined) return noMonth(index, plan.year.length);
  return setYear(plan, plan.year.with(index, { ...month, ...changes }));
}

/** Gives every month after one what that month has. */
export function copyMonthDown(plan: Plan, index: number): Edit {
  const month = plan.year[index];
  if (month === undefined) return noMonth(index, plan.year.length);
  return setYear(
    plan,
    plan.year.map((each, at) => (at > index ? month : each)),
  );
}

/** Fills the winter half by the hemisphere: October to March north of the equator, April to September south of it. */
export function halfYears(plan: Plan): readonly MonthOfYear[] {
  const south = (plan.points[0]?.position.lat ?? 0) < 0;
  return Array.from({ length: MONTHS }, (_, index) => {
    const summerInNorth = index >= SUMMER.first && index <= SUMMER.last;
    const season = summerInNorth === south ? 'winter' : 'summer';
    return { season, airTemperature: null, sourceShare: null } as const;
  });
}

/** April to September. */
const SUMMER = { first: 3, last: 8 } as const;

/** Says how source and weather go through the year. */
export function setYear(plan: Plan, year: readonly MonthOfYear[]): Edit {
  return finishEdit(plan, { ...plan, year }, { code: 'set-year', name: '' });
}

function noMonth(index: number, months: number): Edit {
  return refused('no-such-month', `month ${index + 1}`, `one of ${months} months`);
}
