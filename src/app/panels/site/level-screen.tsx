import type { StaffStand } from '../../../evaluation/site/level-book.ts';
import { knownHeights, levelsOf, READING_DEVIATION, reduceBook } from '../../../evaluation/site/level-book.ts';
import { closingWords, heightChangeWords, legWords, nameOf, staffWords } from '../../../report/words/measure-words.ts';
import {
  clearBook,
  goOn,
  levelledBy,
  putStaff,
  readStaff,
  takeBackLast,
  takeBook,
} from '../../actions/site-actions.ts';
import { onGround } from '../../state/jobs-store.ts';
import { type BookAsks, book, bookAsks } from '../../state/site-store.ts';
import { plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';

/** A level book, one question at a time: where the staff stands, what is read back, what is read on. */
export function LevelScreen() {
  const { stands } = book.value;
  return (
    <div class="site-screen">
      <Ask asks={bookAsks.value} />
      {stands.length > 0 ? (
        <>
          <p class="site-buttons">
            <button type="button" class="quiet" onClick={takeBackLast}>
              Remove the last entry
            </button>
            <button type="button" class="quiet danger" onClick={clearBook}>
              Begin a new book
            </button>
          </p>
          <BookSoFar stands={stands} />
        </>
      ) : null}
    </div>
  );
}

const standName = (at: StaffStand['at'], number: number): string =>
  at === null ? `turning point ${number}` : nameOf(plan.value, at);

function Ask({ asks }: { readonly asks: BookAsks }) {
  const { stands } = book.value;
  const here = standName(stands.at(-1)?.at ?? null, stands.length);
  switch (asks) {
    case 'first-place':
      return (
        <>
          <h3>Where does the staff stand first?</h3>
          <Instrument />
          <Places />
        </>
      );
    case 'next-place':
      return (
        <>
          <h3>Where does the staff go next?</h3>
          <p class="note">The level stays where it is. A turning point is any firm stone or peg on the way.</p>
          <button type="button" class="site-big" onClick={() => putStaff(null)}>
            A turning point
          </button>
          <Places />
        </>
      );
    case 'back':
      return (
        <Reading
          key={`back ${stands.length}`}
          question={`Read back to ${here}`}
          note="the staff reading, from the ground up"
        />
      );
    case 'fore':
      return (
        <Reading
          key={`fore ${stands.length}`}
          question={`Read on to ${here}`}
          note="the staff reading, from the ground up"
        />
      );
    case 'go-on':
      return (
        <>
          <h3>Go on from {here}?</h3>
          <button type="button" class="site-big" onClick={() => goOn('goes-on')}>
            Yes: the level moves, the staff stays
          </button>
          <button type="button" class="site-big" onClick={() => goOn('ends')}>
            No: this was the last
          </button>
        </>
      );
    case 'nothing':
      return <Worked />;
  }
}

function Instrument() {
  const { by } = book.value;
  return (
    <fieldset class="group" aria-label="Measured with">
      <button type="button" aria-pressed={by === 'level'} onClick={() => levelledBy('level')}>
        Level and staff
      </button>
      <button type="button" aria-pressed={by === 'hose'} onClick={() => levelledBy('hose')}>
        Clear hose
      </button>
    </fieldset>
  );
}

function Places() {
  const last = book.value.stands.at(-1)?.at;
  return (
    <ul class="site-places">
      {plan.value.points
        .filter(({ id }) => id !== last)
        .map(({ id, name }) => (
          <li key={id}>
            <button type="button" class="site-big" onClick={() => putStaff(id)}>
              {name}
            </button>
          </li>
        ))}
    </ul>
  );
}

function Reading({ question, note }: { readonly question: string; readonly note: string }) {
  return (
    <div class="site-reading">
      <h3>{question}</h3>
      <QuantityField
        label="Reading"
        note={note}
        value={null}
        kind="height"
        units={plan.value.units}
        digits
        onValue={(reading) => (reading === null ? [] : readStaff(reading))}
      />
      <button type="button" class="site-big">
        Enter
      </button>
    </div>
  );
}

function BookSoFar({ stands }: { readonly stands: readonly StaffStand[] }) {
  const shown = (reading: number | null) => (reading === null ? '' : staffWords(reading, plan.value.units));
  return (
    <table class="site-book">
      <caption class="unseen">The level book so far</caption>
      <thead>
        <tr>
          <th scope="col">Staff at</th>
          <th scope="col">Back</th>
          <th scope="col">On</th>
        </tr>
      </thead>
      <tbody>
        {stands.map(({ at, back, fore }, k) => (
          <tr key={k}>
            <th scope="row">{standName(at, k + 1)}</th>
            <td class="number">{shown(back)}</td>
            <td class="number">{shown(fore)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The book worked out, before it is taken into the plan. */
function Worked() {
  const { stands, by } = book.value;
  const reduced = reduceBook(stands, READING_DEVIATION[by]);
  const { units } = plan.value;
  if (!reduced.ok) {
    const [problem] = reduced.problems;
    return (
      <p role="alert" class="problem">
        Found {problem?.found}; expected {problem?.expected}.
      </p>
    );
  }
  const { legs, closing } = reduced.value;
  return (
    <>
      <h3>The book says</h3>
      <ul class="site-legs">
        {legs.map((leg) => (
          <li key={`${leg.from} ${leg.to} ${leg.rise}`}>{legWords(leg, plan.value, units)}</li>
        ))}
      </ul>
      <p class={closing?.holds === false ? 'problem' : 'note'} role="status">
        {closingWords(closing, units)}
      </p>
      <Heights />
      <button type="button" class="site-big" disabled={legs.length === 0} onClick={takeBook}>
        Take {legs.length === 1 ? 'the level' : `the ${legs.length} levels`} into the plan
      </button>
    </>
  );
}

/** What the ground of each point is then known to be. */
function Heights() {
  const known = onGround.value;
  const { stands, by } = book.value;
  const reduced = reduceBook(stands, READING_DEVIATION[by]);
  if (known === null || !reduced.ok) return null;
  const { plan: grounded, ground } = known;
  const ids = [...new Set(stands.flatMap(({ at }) => at ?? []))];
  const levelled = { ...grounded, measurements: [...grounded.measurements, ...levelsOf(reduced.value)] };
  const [before, after] = [grounded, levelled].map((each) => knownHeights(each, ids, ground));
  return (
    <dl class="facts">
      {ids.map((id) => {
        const now = after?.get(id);
        return now === undefined ? null : (
          <div key={id}>
            <dt>Ground at {nameOf(grounded, id)}</dt>
            <dd>{heightChangeWords({ before: before?.get(id), after: now }, grounded.units)}</dd>
          </div>
        );
      })}
    </dl>
  );
}
