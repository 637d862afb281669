import type { PlanPoint, PlanRoute } from '../../../plan/model/plan.ts';
import { type CourseRow, courseNumber, courseOf, unfolded } from '../../../report/tables/course.ts';
import { type NextStep, nextStep, nextStepWords } from '../../../report/tables/next-step.ts';
import { CHOICE_WORDS, POINT_WORDS, ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { enterMeasured, joinPoints, showDetails } from '../../actions/edit-actions.ts';
import { showJob } from '../../actions/jobs-actions.ts';
import { proposeInTables, proposeToAll } from '../../actions/propose-actions.ts';
import { pickTool, showPanel } from '../../actions/view-actions.ts';
import { evaluation, plan, selection, terrain, tool } from '../../state/store.ts';
import { LineIcon, RoleIcon, VerdictMark } from '../fields/role-icon.tsx';

/** The plan as the water passes it: every part with its main number, and what is still to be drawn where it belongs. */
export function Course() {
  const { rows, aside } = unfolded(courseOf(plan.value), plan.value);
  return (
    <nav class="course" aria-label="Water path">
      <h2>Water path</h2>
      <Next />
      <ol class="course-rows">
        <Rows of={rows} />
      </ol>
      <SetAside rows={aside} />
      <div class="course-more">
        {plan.value.points.some(({ role }) => role === 'standpipe') || rows.some(isMissingStandpipe) ? null : (
          <PlaceButton of="standpipe" words="A standpipe" />
        )}
        <PlaceButton of="tank" words="Another tank" />
        <PlaceButton of="trough" words="A trough" />
        <DrawButton of="delivery" words="Delivery line" />
        <DrawButton of="gravity" words="Gravity line" />
      </div>
    </nav>
  );
}

const isMissingStandpipe = (row: CourseRow): boolean => row.kind === 'missing-point' && row.role === 'standpipe';

/** The one thing to do next; nothing once the plan is whole. */
function Next() {
  const step = nextStep(plan.value);
  if (step === null) return null;
  const needsGround = step.do === 'line' || step.do === 'lines';
  if (needsGround && terrain.value === null) return null;
  return (
    <p class="next-step">
      <button type="button" class="do-it" onClick={() => takeStep(step)}>
        Next step: {nextStepWords(step)}
      </button>
    </p>
  );
}

function takeStep(step: NextStep): void {
  switch (step.do) {
    case 'place':
      pickTool({ place: step.role });
      return;
    case 'water':
      enterMeasured({ quantity: 'source-yield', about: '' });
      return;
    case 'herd':
      showPanel('inputs');
      return;
    case 'line':
      proposeInTables(step.line);
      return;
    case 'lines':
      void proposeToAll();
      return;
    case 'pump':
      showPanel('jobs');
      showJob('sizes');
  }
}

function Rows({ of }: { readonly of: readonly CourseRow[] }) {
  return of.map((row) => (
    <li key={keyOf(row)} class={`depth-${row.depth} ${row.kind}`}>
      <Row row={row} />
    </li>
  ));
}

/** Tanks that were set aside with their lines, in one line until it is unfolded. */
function SetAside({ rows }: { readonly rows: readonly CourseRow[] }) {
  if (rows.length === 0) return null;
  const tanks = rows.filter((row) => row.kind === 'point' && row.point.role === 'tank').length;
  const looked = rows.some((row) => isChosen(row));
  return (
    <details class="course-aside" open={looked}>
      <summary>{tanks === 1 ? '1 tank ruled out' : `${tanks} tanks ruled out`}</summary>
      <ol class="course-rows">
        <Rows of={rows} />
      </ol>
    </details>
  );
}

function isChosen(row: CourseRow): boolean {
  const id = row.kind === 'point' ? row.point.id : row.kind === 'route' ? row.route.id : null;
  return id !== null && selection.value?.id === id;
}

function keyOf(row: CourseRow): string {
  switch (row.kind) {
    case 'point':
      return row.point.id;
    case 'route':
      return row.route.id;
    default:
      return `${row.kind} ${row.role}`;
  }
}

function Row({ row }: { readonly row: CourseRow }) {
  switch (row.kind) {
    case 'point':
      return <PointRow point={row.point} value={courseNumber(row, evaluation.value)} />;
    case 'route':
      return <RouteRow route={row.route} value={courseNumber(row, evaluation.value)} />;
    case 'missing-point':
      return (
        <div class="missing">
          <PlaceButton of={row.role} words={`Place the ${POINT_WORDS[row.role].name.toLowerCase()}`} />
          <p class="note">{POINT_WORDS[row.role].plain}</p>
        </div>
      );
    case 'missing-route':
      return <MissingRoute row={row} />;
  }
}

function PointRow({ point, value }: { readonly point: PlanPoint; readonly value: number | null }) {
  const chosen = selection.value?.kind === 'point' && selection.value.id === point.id;
  const tank = evaluation.value?.tanks.find(({ id }) => id === point.id);
  return (
    <button
      type="button"
      class={`course-item point${point.role === 'tank' && point.standing === 'set-aside' ? ' set-aside' : ''}`}
      aria-current={chosen}
      title={point.name}
      onClick={() => showDetails({ kind: 'point', id: point.id })}
    >
      <RoleIcon of={point.role} />
      <span class="course-name">
        {point.name}
        {point.role === 'tank' && point.standing !== 'candidate' ? (
          <small> {CHOICE_WORDS[point.standing]}</small>
        ) : null}
      </span>
      {tank?.verdict == null ? null : <VerdictMark verdict={tank.verdict} words={false} />}
      <span class="course-value">
        {value === null ? '' : <small>ground </small>}
        {value === null ? '' : writeQuantity(value, 'height', plan.value.units)}
      </span>
    </button>
  );
}

function RouteRow({ route, value }: { readonly route: PlanRoute; readonly value: number | null }) {
  const chosen = selection.value?.kind === 'route' && selection.value.id === route.id;
  return (
    <button
      type="button"
      class="course-item route"
      aria-current={chosen}
      title={route.name}
      onClick={() => showDetails({ kind: 'route', id: route.id, vertex: null })}
    >
      <LineIcon of={route.role} />
      <span class="course-name">{route.name}</span>
      <span class="course-value">{value === null ? '' : writeQuantity(value, 'length', plan.value.units)}</span>
    </button>
  );
}

function MissingRoute({ row }: { readonly row: Extract<CourseRow, { kind: 'missing-route' }> }) {
  const { role, ends } = row;
  const name = ROUTE_WORDS[role].name.toLowerCase();
  if (ends === null) return <p class="missing-line note">{ROUTE_WORDS[role].name}: place both its ends first</p>;
  return (
    <div class="missing">
      <DrawButton of={role} words={`Draw the ${name}`} />
      <button type="button" class="quiet" onClick={() => joinPoints({ role, ...ends, between: [] })}>
        <span class="unseen">Draw the {name} </span>straight
      </button>
      <ProposeMissing role={role} ends={ends} />
    </div>
  );
}

/** Looks for a line and turns to the table where it is shown. */
function ProposeMissing({
  role,
  ends,
}: {
  readonly role: PlanRoute['role'];
  readonly ends: { readonly from: string; readonly to: string };
}) {
  const at = (id: string) => plan.value.points.find((point) => point.id === id);
  const [from, to] = [at(ends.from), at(ends.to)];
  if (terrain.value === null || from === undefined || to === undefined) return null;
  return (
    <button type="button" class="quiet" onClick={() => proposeInTables({ role, from, to })}>
      propose<span class="unseen"> a {ROUTE_WORDS[role].name.toLowerCase()}</span>
    </button>
  );
}

function PlaceButton({ of, words }: { readonly of: PlanPoint['role']; readonly words: string }) {
  const active = typeof tool.value === 'object' && 'place' in tool.value && tool.value.place === of;
  return (
    <button
      type="button"
      class="tool"
      aria-pressed={active}
      onClick={() => pickTool(active ? 'select' : { place: of })}
    >
      <RoleIcon of={of} />
      {words}
    </button>
  );
}

function DrawButton({ of, words }: { readonly of: PlanRoute['role']; readonly words: string }) {
  const active = typeof tool.value === 'object' && 'draw' in tool.value && tool.value.draw === of;
  return (
    <button type="button" class="tool" aria-pressed={active} onClick={() => pickTool(active ? 'select' : { draw: of })}>
      <LineIcon of={of} />
      {words}
    </button>
  );
}
