import { refusalSentence } from '../../../report/words/refusal-words.ts';
import type { Problem } from '../../../units/outcome.ts';

const MOST_SHOWN = 5;

/** What is wrong with a file: each thing found with what was expected. */
export function ProblemList({ problems, file }: { readonly problems: readonly Problem[]; readonly file: string }) {
  return (
    <ul class="problems">
      {problems.slice(0, MOST_SHOWN).map((problem) => (
        <li key={`${problem.code} ${problem.path}`} data-code={problem.code}>
          {refusalSentence(problem.path === file ? { ...problem, path: '' } : problem)}
        </li>
      ))}
      {problems.length > MOST_SHOWN ? <li>and {problems.length - MOST_SHOWN} more.</li> : null}
    </ul>
  );
}
