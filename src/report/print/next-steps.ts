import type { FigureChild } from '../figure-node.ts';
import { findingWords } from '../finding-words.ts';
import { nameOf } from '../measure-words.ts';
import { measureSentences } from './measure-part.ts';
import type { PrintSource } from './print-source.ts';
import { strong } from './sheet-node.ts';

/** So many of each kind fit on page one; the rest is in the details. */
const MOST = 3;

/** What to do next: what fails as drawn, then what to measure. */
export function nextSteps(source: PrintSource): readonly (readonly FigureChild[])[] {
  const { plan, units, site } = source;
  if (site === null) return [['Open an elevation file of the place in the planner.']];
  const failing = site.evaluation.findings.filter(({ verdict }) => verdict === 'fails');
  const remedies = failing.slice(0, MOST).map((finding): FigureChild[] => {
    const words = findingWords(finding, { units, nameOf: (id) => nameOf(plan, id) });
    return [strong(`${nameOf(plan, finding.about)}: `), words.remedy];
  });
  const measure = measureSentences(source);
  const titles = measure.slice(0, MOST).map(([title]): FigureChild[] => [`${title}.`]);
  const left = failing.length - remedies.length + measure.length - titles.length;
  return [...remedies, ...titles, ...(left > 0 ? [[`${left} more in the details.`]] : [])];
}
