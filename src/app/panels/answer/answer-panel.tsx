import './measured.css';
import { measuredPoint } from '../../../plan/check/check-measurements.ts';
import { answerSentence } from '../../../report/findings/answer-words.ts';
import { measureReason } from '../../../report/findings/measure-reason.ts';
import { measuredChange } from '../../../report/findings/measured-change.ts';
import { lineTable, pointTable } from '../../../report/tables/plan-tables.ts';
import type { ReportTable } from '../../../report/tables/report-table.ts';
import { measurementWords, measureWords, nameOf } from '../../../report/words/measure-words.ts';
import { TERMS } from '../../../report/words/terms.ts';
import { terrainNoteSentence } from '../../../report/words/terrain-note-words.ts';
import { shownAddress } from '../../../terrain/bytes/address-name.ts';
import { enterMeasured, showById } from '../../actions/edit-actions.ts';
import { openSite } from '../../actions/site-actions.ts';
import { showPanel } from '../../actions/view-actions.ts';
import { beforeMeasured } from '../../state/measure-store.ts';
import { evaluation, grounded, groundFailure, plan, terrain } from '../../state/store.ts';
import { EstimateFigure } from '../fields/estimate-figure.tsx';
import { Findings } from './findings.tsx';
import { TankTable } from './tank-table.tsx';
import { TroughTable } from './trough-table.tsx';

/** What came of it: whether it runs, the main numbers, each tank, what to measure first, and the findings. */
export function AnswerPanel() {
  if (terrain.value === null) return <NoTerrain />;
  return (
    <div class="answer">
      {groundFailure.value === null ? null : (
        <p class="problem" role="alert">
          The terrain gave no answer for the last change: {groundFailure.value}. The numbers below are those from
          before.
        </p>
      )}
      <Findings />
      <MeasureFirst />
      <TankTable />
      <TroughTable />
      <MainNumbers />
      <GroundNotes />
      <PlanTables />
    </div>
  );
}

function NoTerrain() {
  return (
    <div class="answer empty-answer">
      <h2>No results yet</h2>
      <p>
        Heights come from an elevation file (a DEM as GeoTIFF) of your own. Open one above the map, then place the
        source and the pump: the fall between them is the first number to appear here.
      </p>
      {plan.value.points.length > 0 ? (
        <p>
          The plan is open and can be edited; its heights are missing until its elevation file
          {plan.value.terrain === null ? '' : ` (${plan.value.terrain.files.map(shownAddress).join(', ')})`} is opened.
        </p>
      ) : null}
    </div>
  );
}

function MainNumbers() {
  const pump = evaluation.value?.pump ?? null;
  if (pump === null) return null;
  return (
    <dl class="main-numbers" aria-label="Main numbers">
      <EstimateFigure term={TERMS.fall} estimate={pump.fall} kind="height" field="fall" />
      <EstimateFigure term={TERMS.fallAtRest} estimate={pump.fallAtRest} kind="height" field="fall-at-rest" />
      <EstimateFigure
        term={TERMS.driveFlow}
        {...(pump.count === 1 ? {} : { hint: `what the ${pump.count} pumps use together` })}
        estimate={pump.driveFlow}
        kind="flow"
        field="drive-flow"
      />
      <EstimateFigure term={TERMS.supplyLimit} estimate={pump.supplyLimit} kind="flow" field="supply-limit" />
    </dl>
  );
}

/** What must be known of the ground before its numbers are trusted: of the whole elevation file, and of each line. */
function GroundNotes() {
  const { units } = plan.value;
  const whole = (terrain.value?.about.notes ?? []).map((note) => terrainNoteSentence(note, units));
  const lines = [...(grounded.value?.ground.lines ?? [])].flatMap(([id, line]) =>
    (line.notes ?? []).map((note) => `${nameOf(plan.value, id)}: ${terrainNoteSentence(note, units)}`),
  );
  const all = [...whole, ...lines];
  if (all.length === 0) return null;
  return (
    <section class="block" aria-labelledby="ground-title">
      <h2 id="ground-title">About the elevation file</h2>
      <ul class="ground-notes">
        {all.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}

/** Every point and line of the plan in two tables: the map in words. */
function PlanTables() {
  if (plan.value.points.length === 0) return null;
  const reported = { plan: plan.value, evaluation: evaluation.value, units: plan.value.units };
  return (
    <details class="block">
      <summary>
        <h2>All points and lines</h2>
      </summary>
      <Table table={pointTable(reported)} />
      <Table table={lineTable(reported)} />
    </details>
  );
}

function Table({ table }: { readonly table: ReportTable }) {
  if (table.rows.length === 0) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls sideways must scroll from the keyboard
    <section class="table-scroll" tabIndex={0} aria-label={table.title}>
      <table class="plan-table">
        <caption class="unseen">{table.title}</caption>
        <thead>
          <tr>
            {table.columns.map(({ name, numeric }) => (
              <th key={name} scope="col" class={numeric ? 'number' : ''}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map(({ id, cells }) => (
            <tr key={id}>
              {cells.map((cell, index) =>
                index === 0 ? (
                  <th key={table.columns[index]?.name} scope="row">
                    <button type="button" class="link" onClick={() => showById(id)}>
                      {cell}
                    </button>
                  </th>
                ) : (
                  <td key={table.columns[index]?.name} class={table.columns[index]?.numeric ? 'number' : ''}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** What to measure on site, in order of worth. */
function MeasureFirst() {
  const result = evaluation.value;
  if (result === null || (result.measureFirst.length === 0 && doneWords().length === 0)) return null;
  const { units } = plan.value;
  return (
    <section aria-labelledby="measure-title">
      <h2 id="measure-title">Measure on site, in this order</h2>
      <MeasuredChange />
      <p class="buttons">
        <button type="button" onClick={openSite}>
          Enter readings on site, one question a screen
        </button>
      </p>
      {result.measureFirst.length === 0 ? <p class="note">Everything that a visit can settle is settled.</p> : null}
      <ol class="measure-first">
        {result.measureFirst.map((item) => {
          const words = measureWords(item, plan.value, units);
          const reason = measureReason(item, result, plan.value, units);
          return (
            <li key={`${item.quantity} ${item.about}`} data-quantity={item.quantity}>
              <button type="button" class="link" onClick={() => enterMeasured(item)}>
                {words.title}
              </button>{' '}
              {words.aim === null ? null : <strong>{words.aim}</strong>}
              {words.expected === null ? null : (
                <small>
                  we expect {words.expected}
                  {LEVELS.has(item.quantity) ? ', ground to ground' : ''}
                </small>
              )}
              {reason === '' ? null : <small>{reason}</small>}
            </li>
          );
        })}
      </ol>
      <Done />
    </section>
  );
}

const LEVELS: ReadonlySet<string> = new Set(['fall', 'standpipe-level', 'lift', 'summit-level', 'trough-level']);

/** What the last measurement has changed. */
function MeasuredChange() {
  const [before, now] = [beforeMeasured.value, evaluation.value];
  if (before === null || now === null || before === now) return null;
  const words = measuredChange(before, now, plan.value, plan.value.units);
  return words === '' ? null : (
    <p class="measured-change" role="status">
      {words} {answerSentence(now.answer, plan.value)}
    </p>
  );
}

/** What was measured so far, each with where it is entered. */
function doneWords(): readonly { readonly words: string; readonly show: () => void }[] {
  const { measurements, yieldReadings, pump, units } = plan.value;
  const bucket = yieldReadings.filter(({ kind }) => kind === 'timed').length;
  return [
    ...(bucket === 0
      ? []
      : [
          {
            words: bucket === 1 ? 'Bucket test at the source' : `${bucket} bucket tests at the source`,
            show: () => showPanel('inputs'),
          },
        ]),
    ...measurements.map((taken) => ({
      words: measurementWords(taken, plan.value, units),
      show: () => showById(measuredPoint(taken)),
    })),
    ...(pump?.measured == null ? [] : [{ words: 'Test run of the pump', show: () => showPanel('inputs') }]),
  ];
}

function Done() {
  const done = doneWords();
  if (done.length === 0) return null;
  return (
    <>
      <h3>Done</h3>
      <ul class="measured-done">
        {done.map(({ words, show }) => (
          <li key={words}>
            <span aria-hidden="true">✓ </span>
            <button type="button" class="link" onClick={show}>
              {words}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
