import { useEffect, useId, useRef, useState } from 'preact/hooks';
import {
  type AskedTogether,
  askedTogether,
  crsCandidateWords,
  EPSG_HINT,
  EPSG_PATTERN,
  epsgAnswer,
  epsgCode,
  systemsAt,
} from '../../../report/words/question-words.ts';
import type { Corners, CrsCandidate } from '../../../terrain/georeference/crs-candidate.ts';
import type { FileAnswers } from '../../../worker/messages.ts';
import { answerQuestions, hidePictureRefusal, hideTerrainRefusal } from '../../actions/terrain-actions.ts';
import { type FileState, pictureFile, plan, terrain, terrainFile } from '../../state/store.ts';

type Asking = Extract<FileState, { kind: 'question' }>;

/** What only the user can say about an elevation file or a picture, asked before it is opened; one after the other. */
export function QuestionDialog() {
  const elevation = terrainFile.value;
  const picture = pictureFile.value;
  if (elevation.kind === 'question')
    return <Questions key="elevation" state={elevation} onLeave={hideTerrainRefusal} />;
  return picture.kind === 'question' ? <Questions key="picture" state={picture} onLeave={hidePictureRefusal} /> : null;
}

function Questions({ state, onLeave }: { readonly state: Asking; readonly onLeave: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const asked = askedTogether(state.questions);
  const answer = async (event: SubmitEvent, form: HTMLFormElement) => {
    event.preventDefault();
    const given = new FormData(form);
    if (await canBeAnswered(asked, given)) await answerQuestions(state, answersOf(asked, given));
  };
  return (
    <dialog ref={dialog} aria-labelledby="question-title" onCancel={onLeave}>
      <form onSubmit={(event) => void answer(event, event.currentTarget)}>
        <h2 id="question-title">One thing we need to know</h2>
        {asked.map((words, index) => (
          <fieldset key={words.sentence}>
            <legend>{words.sentence}</legend>
            {words.typed === 'crs' && <EpsgField name={`question-${index}`} corners={words.corners} />}
            {words.choices.map((choice, number) => (
              <label key={choice.words} class="check">
                <input
                  type="radio"
                  name={`question-${index}`}
                  value={number}
                  required
                  defaultChecked={choice.likely === true}
                  aria-describedby={choice.likely ? `likely-${index}` : undefined}
                />
                {choice.words}
                {choice.likely && (
                  <span id={`likely-${index}`} class="note" aria-hidden="true">
                    {' '}
                    (likely)
                  </span>
                )}
              </label>
            ))}
          </fieldset>
        ))}
        <p class="buttons">
          <button type="submit">Open</button>
          <button type="button" onClick={onLeave}>
            Cancel
          </button>
        </p>
      </form>
    </dialog>
  );
}

const said = (form: FormData, index: number): string => String(form.get(`question-${index}`));

/** A code that is none, or in which the file is nowhere, is said beside its field and not tried. */
async function canBeAnswered(asked: readonly AskedTogether[], form: FormData): Promise<boolean> {
  const typed = asked.map(({ typed: what, corners }, index) =>
    what === 'crs' ? lookUp(said(form, index), corners) : null,
  );
  const found = await Promise.all(typed);
  return asked.every(({ typed: what }, index) => what !== 'crs' || found[index]?.kind === 'place');
}

function answersOf(asked: readonly AskedTogether[], form: FormData): FileAnswers {
  const answers: Record<string, FileAnswers[string]> = {};
  asked.forEach(({ files, choices, typed }, index) => {
    const given = said(form, index);
    const answer = typed === 'crs' ? epsgAnswer(given) : choices[Number(given)]?.answer;
    for (const file of answer ? files : []) answers[file] = { ...answers[file], ...answer };
  });
  return answers;
}

interface EpsgFieldProps {
  readonly name: string;
  readonly corners: readonly Corners[];
}

/** Takes the EPSG code of files that state none, and says at once which CRS that is and where they would lie. */
function EpsgField({ name, corners }: EpsgFieldProps) {
  const id = useId();
  const [candidate, setCandidate] = useState<CrsCandidate | null>(null);
  const look = async (field: HTMLInputElement) => {
    const typed = field.value;
    field.setCustomValidity('');
    const found = await lookUp(typed, corners);
    if (field.value !== typed) return;
    setCandidate(found);
    if (found !== null && found.kind !== 'place') field.setCustomValidity(crsCandidateWords(found));
  };
  const wrong = candidate !== null && (candidate.kind !== 'place' || candidate.inArea === false);
  return (
    <div class={`field ${wrong ? 'wrong' : ''}`}>
      <label for={id}>EPSG code</label>
      <input
        id={id}
        type="text"
        name={name}
        pattern={EPSG_PATTERN}
        placeholder="EPSG:32633"
        title="A code such as EPSG:32633"
        autocomplete="off"
        spellcheck={false}
        required
        aria-describedby={`${id}-note`}
        onInput={({ currentTarget }) => void look(currentTarget)}
      />
      <OfferedSystems
        onCode={(code) => {
          const field = document.getElementById(id);
          if (!(field instanceof HTMLInputElement)) return;
          field.value = `EPSG:${code}`;
          void look(field);
        }}
      />
      <p id={`${id}-note`} class={wrong ? 'problem' : 'note'} role="status">
        {candidate === null ? EPSG_HINT : crsCandidateWords(candidate)}
      </p>
    </div>
  );
}

/** Systems of the place that is open on the map, so that nobody has to know a code. */
function OfferedSystems({ onCode }: { readonly onCode: (code: number) => void }) {
  const here = terrain.value?.about.outline[0] ?? plan.value.points[0]?.position;
  if (here === undefined) return null;
  return (
    <p class="buttons offered-systems">
      <span>Usual here:</span>
      {systemsAt(here).map(({ code, words }) => (
        <button key={code} type="button" onClick={() => onCode(code)}>
          {words}
        </button>
      ))}
    </p>
  );
}

/** The first file that a code does not fit, else the first of all; null while no code is typed. */
async function lookUp(typed: string, corners: readonly Corners[]): Promise<CrsCandidate | null> {
  const code = epsgCode(typed);
  if (code === null) return null;
  const { crsCandidate } = await import('../../../terrain/georeference/crs-candidate.ts');
  const all = await Promise.all(corners.map((each) => crsCandidate(code, each)));
  const bad = all.find(({ kind }) => kind !== 'place');
  return bad ?? all.find((each) => each.kind === 'place' && each.inArea === false) ?? all[0] ?? null;
}
