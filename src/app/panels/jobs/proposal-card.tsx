import type { ProposableLine } from '../../../report/tables/proposable-lines.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import {
  anywayWords,
  coarserSentence,
  noProposalSentence,
  proposedWords,
} from '../../../report/words/proposal-words.ts';
import { ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { layAnyway, layProposal, leaveProposal, proposeLine, showProposal } from '../../actions/propose-actions.ts';
import { type LineSearch, lineSearch } from '../../state/jobs-store.ts';
import { plan } from '../../state/store.ts';

/** The line that is looked for or was found, with what can be done with it; nothing while none is. */
export function ProposalCard() {
  const search = lineSearch.value;
  if (search === null) return null;
  const { role, from, to } = search.line;
  return (
    <section class="proposal" aria-label="Proposed line" data-state={search.kind}>
      <h3>
        {ROUTE_WORDS[role].name} from {nameOf(plan.value, from)} to {nameOf(plan.value, to)}
      </h3>
      <Outcome search={search} />
    </section>
  );
}

function Outcome({ search }: { readonly search: LineSearch }) {
  const { units } = plan.value;
  switch (search.kind) {
    case 'looking':
      return (
        <>
          <p role="status">Looking for a line: {search.followed} ways followed so far.</p>
          <progress aria-label="Looking for a line" />
          <Leave words="Stop looking" />
        </>
      );
    case 'found':
      return <Found search={search} />;
    case 'none':
      return (
        <>
          <p>{noProposalSentence(search.why, units)}</p>
          {search.anyway === null ? (
            <Leave words="OK" />
          ) : (
            <>
              <p>{proposedWords(search.anyway.route, units)}</p>
              <p class="note">The best line is shown on map and profile; it is not in the plan until you use it.</p>
              <p class="buttons">
                <button type="button" onClick={layAnyway}>
                  {anywayWords(search.anyway.trench, units)}
                </button>
                <Leave words="Discard" />
              </p>
            </>
          )}
        </>
      );
    case 'failed':
      return (
        <>
          <p class="problem">The search gave no answer: {search.reason}.</p>
          <Leave words="OK" />
        </>
      );
  }
}

function Found({ search }: { readonly search: Extract<LineSearch, { kind: 'found' }> }) {
  const { units } = plan.value;
  const coarser = coarserSentence(search.ground, units);
  return (
    <>
      <fieldset class="proposal-choices">
        <legend class="unseen">Which line</legend>
        {search.routes.map((route, index) => (
          <label key={route.length} class="check">
            <input type="radio" name="proposal" checked={index === search.shown} onChange={() => showProposal(index)} />
            {proposedWords(route, units)}
          </label>
        ))}
      </fieldset>
      {coarser === null ? null : <p class="note">{coarser}</p>}
      <p class="note">Shown on the map and in the numbers; it is not in the plan until you use it.</p>
      <p class="buttons">
        <button type="button" onClick={layProposal}>
          Use this line
        </button>
        <Leave words="Discard" />
      </p>
    </>
  );
}

function Leave({ words }: { readonly words: string }) {
  return (
    <button type="button" onClick={leaveProposal}>
      {words}
    </button>
  );
}

/** A button that looks for a line. */
export function ProposeButton({
  line,
  words,
  about = null,
}: {
  readonly line: ProposableLine;
  readonly words: string;
  /** For a screen reader, where the words alone do not say which line. */
  readonly about?: string | null;
}) {
  return (
    <button type="button" onClick={() => void proposeLine(line)}>
      {words}
      {about === null ? null : <span class="unseen"> a {about}</span>}
    </button>
  );
}
