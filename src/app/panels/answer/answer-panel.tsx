import { shownAddress } from '../../../terrain/bytes/address-name.ts';
import { evaluation, groundFailure, plan, terrain } from '../../state/store.ts';
import { EstimateFigure } from '../fields/estimate-figure.tsx';
import { Findings } from './findings.tsx';
import { GroundNotes } from './ground-notes.tsx';
import { MeasureFirst } from './measure-first.tsx';
import { PlanTables } from './plan-tables.tsx';
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
      <MainNumbers />
      <TankTable />
      <TroughTable />
      <MeasureFirst />
      <Findings />
      <GroundNotes />
      <PlanTables />
    </div>
  );
}

function NoTerrain() {
  return (
    <div class="answer empty-answer">
      <h2>Nothing is reckoned yet</h2>
      <p>
        Heights come from an elevation file (a DEM as GeoTIFF) that you bring. Open one above the map, then place the
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
  return (
    <dl class="main-numbers" aria-label="Main numbers">
      <EstimateFigure
        name="Fall, running"
        hint="water in the standpipe above the waste valve"
        estimate={pump?.fall ?? null}
        kind="height"
        field="fall"
      />
      <EstimateFigure
        name="Fall, at rest"
        hint="source above the waste valve"
        estimate={pump?.fallAtRest ?? null}
        kind="height"
        field="fall-at-rest"
      />
      <EstimateFigure
        name="Drive flow"
        hint={pump === null || pump.count === 1 ? 'what the pump takes' : `what the ${pump.count} pumps take together`}
        estimate={pump?.driveFlow ?? null}
        kind="flow"
        field="drive-flow"
      />
      <EstimateFigure
        name="Supply limit"
        hint="the most the line brings before it draws air"
        estimate={pump?.supplyLimit ?? null}
        kind="flow"
        field="supply-limit"
      />
    </dl>
  );
}
