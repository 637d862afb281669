/** What a plan needs to know of the handbook: which rows exist. */
export interface HandbookRows {
  hasPipe(row: string): boolean;
  hasFitting(row: string): boolean;
  hasHerd(row: string): boolean;
}
