import type { Finding } from '../../../evaluation/result/evaluation.ts';
import { findingWords } from '../../../report/findings/finding-words.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import { showPlace } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { VerdictMark } from '../fields/role-icon.tsx';
import { RemedyButton } from './remedy-button.tsx';

/** What fails and what must be measured, each with what to do; what holds is folded away. */
export function Findings() {
  const all = evaluation.value?.findings ?? [];
  if (all.length === 0) return null;
  const open = all.filter((finding) => finding.verdict !== 'holds');
  const held = all.filter((finding) => finding.verdict === 'holds');
  return (
    <section aria-labelledby="findings-title">
      <h2 id="findings-title">Findings</h2>
      {open.length === 0 ? <p class="note">Everything that was checked is OK.</p> : <List findings={open} />}
      {held.length === 0 ? null : (
        <details>
          <summary>{held.length} more that are OK</summary>
          <List findings={held} />
        </details>
      )}
    </section>
  );
}

function List({ findings }: { readonly findings: readonly Finding[] }) {
  return (
    <ul class="findings">
      {findings.map((finding) => (
        <Item key={`${finding.code} ${finding.about}`} finding={finding} />
      ))}
    </ul>
  );
}

/** How far along its line a finding speaks of, where it speaks of one place. */
export function placeAlong({ facts }: Finding): number | null {
  return typeof facts.at === 'number' ? facts.at : null;
}

function Item({ finding }: { readonly finding: Finding }) {
  const words = findingWords(finding, { units: plan.value.units, nameOf: (id) => nameOf(plan.value, id) });
  return (
    <li class={finding.verdict} data-code={finding.code} data-verdict={finding.verdict}>
      <h3>
        <VerdictMark verdict={finding.verdict} words={false} />
        {words.title}
      </h3>
      <p>
        {words.sentence}{' '}
        <button type="button" class="link" onClick={() => showPlace(finding.about, placeAlong(finding))}>
          Show<span class="unseen"> {nameOf(plan.value, finding.about)}</span>
        </button>
      </p>
      <RemedyButton finding={finding} otherwise={words.remedy} />
      <p class="source">{finding.source}</p>
    </li>
  );
}
