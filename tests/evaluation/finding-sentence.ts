import type { Evaluation } from '../../src/evaluation/result/evaluation.ts';
import { findingWords } from '../../src/report/findings/finding-words.ts';

/** What one finding says, with ids for names and plain spaces; throws where there is none. */
export function findingSentence({ findings }: Evaluation, code: string, about: string): string {
  const finding = findings.find((f) => f.code === code && f.about === about);
  if (finding === undefined) throw new Error(`found no ${code} about ${about}, expected one`);
  const { sentence, remedy } = findingWords(finding, { units: 'metric', nameOf: (id) => id });
  return `${sentence} ${remedy}`.replace(/\s/g, ' ');
}
