import { fittingRow } from '../../handbook/fitting-loss.ts';
import { herdRow } from '../../handbook/livestock-needs.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';

/** The rows of this program's handbook. */
export const handbookRows: HandbookRows = {
  hasPipe: (row) => pipeRow(row) !== null,
  hasFitting: (row) => fittingRow(row) !== null,
  hasHerd: (row) => herdRow(row) !== null,
};

/** What a plan needs to know of the handbook: which rows exist. */
export interface HandbookRows {
  hasPipe(row: string): boolean;
  hasFitting(row: string): boolean;
  hasHerd(row: string): boolean;
}
