export type { Outcome, Problem } from '../../units/outcome.ts';
