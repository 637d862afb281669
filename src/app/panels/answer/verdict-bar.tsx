import type { Finding } from '../../../evaluation/result/evaluation.ts';
import {
  answerSentence,
  answerVerdict,
  arrivesSentence,
  firstSentence,
} from '../../../report/findings/answer-words.ts';
import { findingWords } from '../../../report/findings/finding-words.ts';
import { nameOf } from '../../../report/words/measure-words.ts';
import { addressName } from '../../../terrain/bytes/address-name.ts';
import { enterMeasured } from '../../actions/edit-actions.ts';
import { openTerrainFiles } from '../../actions/terrain-actions.ts';
import { evaluation, groundBusy, plan, terrain, terrainFile, unsaved } from '../../state/store.ts';
import { FileButton } from '../fields/file-button.tsx';
import { VerdictMark } from '../fields/role-icon.tsx';
import { RemedyButton } from './remedy-button.tsx';

/**
 * The answer of the whole plan: whether it runs, what decides it with the button that mends it, what arrives, and what to measure
 * first. It stays in view whichever panel is open.
 */
export function VerdictBar() {
  const answer = evaluation.value?.answer ?? null;
  if (terrain.value === null) return <KeptAnswerBar />;
  const verdict = answer && answerVerdict(answer);
  return (
    <section
      class={`plan-verdict ${verdict ?? 'unknown'}`}
      aria-label="Answer for the plan"
      data-verdict={verdict ?? ''}
      data-state={answer?.state ?? ''}
      data-busy={groundBusy.value}
    >
      <p class="plan-sentence">
        {verdict === null ? null : <VerdictMark verdict={verdict} words={false} />}
        <span>{answer === null ? 'Working it out…' : answerSentence(answer, plan.value)}</span>
        {answer !== null && groundBusy.value ? <small class="settling">numbers are settling…</small> : null}
      </p>
      {answer === null ? null : <Beneath />}
    </section>
  );
}

/** What the plan was answered when it was saved, while its elevation file is not open: marked as kept, with the file it wants. */
function KeptAnswerBar() {
  const kept = plan.value.lastAnswer;
  if (kept === undefined || terrainFile.value.kind === 'opening') return null;
  const [sentence = '', ...beneath] = kept.sentences;
  const files = kept.files.map((file) => addressName(file) ?? file).join(', ');
  return (
    <section class="plan-verdict kept" aria-label="Answer kept in the plan" data-kept="true">
      <p class="plan-sentence">
        {kept.verdict === null ? null : <VerdictMark verdict={kept.verdict} words={false} />}
        <span>{sentence}</span>
      </p>
      <div class="answer-beneath">
        {beneath.map((line) => (
          <p key={line}>{line}</p>
        ))}
        <p>
          <strong>
            Kept from {kept.on}
            {unsaved.value ? ', before what you changed since' : ''}.
          </strong>{' '}
          To have it worked out again, open {files}.
        </p>
        <p class="buttons">
          <FileButton accept=".tif,.tiff,.asc" multiple onFiles={(chosen) => void openTerrainFiles(chosen)}>
            Choose {files}…
          </FileButton>
        </p>
      </div>
    </section>
  );
}

/** What stands beneath the sentence. */
function Beneath() {
  const result = evaluation.value;
  if (result === null) return null;
  const { answer } = result;
  const because = answer.runs.because ?? answer.arrives.because;
  const arrives = arrivesSentence(answer, plan.value);
  const first = firstSentence(answer, plan.value);
  return (
    <div class="answer-beneath">
      {because === null ? null : <Because finding={because} />}
      {arrives === '' ? null : <p>{arrives}</p>}
      {first !== '' && answer.first === null ? <p>{first}</p> : null}
      {first === '' || answer.first === null ? null : (
        <p>
          <button type="button" class="link" onClick={() => answer.first && enterMeasured(answer.first)}>
            {first}
          </button>
        </p>
      )}
    </div>
  );
}

/** The deciding reason, and what mends it. */
function Because({ finding }: { readonly finding: Finding }) {
  const words = findingWords(finding, { units: plan.value.units, nameOf: (id) => nameOf(plan.value, id) });
  return (
    <div class="answer-because">
      <p>{words.sentence}</p>
      <RemedyButton finding={finding} otherwise={words.remedy} />
    </div>
  );
}
