import { fittingRow } from '../../handbook/fitting-loss.ts';
import { herdRow } from '../../handbook/livestock-needs.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import type { HandbookRows } from './handbook-rows.ts';

/** The rows of this program's handbook. */
export const handbookRows: HandbookRows = {
  hasPipe: (row) => pipeRow(row) !== null,
  hasFitting: (row) => fittingRow(row) !== null,
  hasHerd: (row) => herdRow(row) !== null,
};
