import { useState } from 'preact/hooks';
import { type PipeRow, pipeRow, pipeRows } from '../../../handbook/pipe-rows.ts';
import { setRoutePipe } from '../../../plan/edits/edit-routes.ts';
import type { PlanPipe, PlanRoute, UnitSystem } from '../../../plan/model/plan.ts';
import { startingPipe } from '../../../plan/model/starting-pipe.ts';
import { roughnessWords } from '../../../report/words/pipe-words.ts';
import { spelled } from '../../../report/words/spelling.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { TextField } from '../fields/text-field.tsx';

type OwnPipe = Extract<PlanPipe, { kind: 'own' }>;

const OWN = 'own';
const MATERIALS = [
  { value: 'steel', words: 'steel' },
  { value: 'copper', words: 'copper' },
  { value: 'pvc', words: 'PVC' },
  { value: 'pe', words: 'polyethylene' },
] as const;

/** The pipe of a route: a series and size of the handbook, or one that is described here. */
export function PipeChooser({ route }: { readonly route: PlanRoute }) {
  const pipe = plan.value.pipes.find(({ id }) => id === route.pipe);
  const row = pipe?.kind === 'row' ? pipeRow(pipe.row) : null;
  /** A series that is being looked through; null shows that of the plan. */
  const [looking, setLooking] = useState<string | null>(null);
  const series = looking ?? row?.series ?? OWN;
  const names = seriesFor(plan.value.units);
  return (
    <div>
      <ChoiceField
        label="Series"
        value={series}
        choices={[
          ...names.map((name) => ({ value: name, words: spelled(name, plan.value.units) })),
          { value: OWN, words: 'described below' },
        ]}
        onValue={(name) => {
          setLooking(name);
          return [];
        }}
      />
      {series === OWN ? (
        <OwnPipeFields route={route} pipe={pipe} />
      ) : (
        <SizeField route={route} series={series} row={row?.id ?? ''} onTaken={() => setLooking(null)} />
      )}
    </div>
  );
}

/** Every series of the handbook; those that are sold by the units that are shown come first. */
function seriesFor(units: UnitSystem): readonly string[] {
  const isLocal = ({ standard }: PipeRow) => standard.startsWith('ASTM') === (units === 'us');
  const rows = pipeRows();
  return [...new Set([...rows.filter(isLocal), ...rows].map(({ series }) => series))];
}

function SizeField({
  route,
  series,
  row,
  onTaken,
}: {
  readonly route: PlanRoute;
  readonly series: string;
  readonly row: string;
  readonly onTaken: () => void;
}) {
  const sizes = pipeRows().filter((each) => each.series === series);
  const current = sizes.find(({ id }) => id === row);
  return (
    <>
      <ChoiceField
        label="Size"
        value={current?.id ?? ''}
        choices={[
          ...(current === undefined ? [{ value: '', words: 'choose a size' }] : []),
          ...sizes.map(({ id, size }) => ({ value: id, words: size })),
        ]}
        onValue={(id) => {
          if (id === '') return [];
          const problems = edit((p) => setRoutePipe(p, route.id, { kind: 'row', row: id }));
          if (problems.length === 0) onTaken();
          return problems;
        }}
      />
      {current === undefined ? null : <p class="note">{current.standard}</p>}
    </>
  );
}

function OwnPipeFields({ route, pipe }: { readonly route: PlanRoute; readonly pipe: PlanPipe | undefined }) {
  const now = ownPipe(pipe, route.role);
  const { units } = plan.value;
  const change = (changes: Partial<Omit<OwnPipe, 'id' | 'kind'>>) =>
    edit((p) => setRoutePipe(p, route.id, { ...now, ...changes }));
  const length = (label: string, value: number, key: 'bore' | 'wall' | 'roughness') => (
    <QuantityField
      label={label}
      kind="bore"
      value={value}
      units={units}
      {...(key === 'roughness' ? { write: roughnessWords } : {})}
      onValue={(typed) => (typed === null ? [] : change({ [key]: typed }))}
    />
  );
  return (
    <div class="fields">
      <TextField label="Label" value={now.label} onValue={(label) => change({ label })} />
      <ChoiceField
        label="Material"
        value={now.material}
        choices={MATERIALS}
        onValue={(material) => change({ material })}
      />
      {length('Bore', now.bore, 'bore')}
      {length('Wall', now.wall, 'wall')}
      {length('Roughness', now.roughness, 'roughness')}
      <QuantityField
        label="Rated pressure"
        kind="pressure"
        value={now.rating}
        units={units}
        optional
        note="leave blank if unknown"
        onValue={(rating) => change({ rating })}
      />
    </div>
  );
}

/** The described pipe of a route; the figures of its row, to be changed, when it lies in a pipe of the handbook. */
function ownPipe(pipe: PlanPipe | undefined, role: PlanRoute['role']): Omit<OwnPipe, 'id'> {
  const described = pipe ?? { id: '', ...startingPipe(role, plan.value.units) };
  if (described.kind === 'own') {
    const { id: _, ...own } = described;
    return own;
  }
  const row = pipeRow(described.row);
  if (row === null) throw new Error(`found pipe ${described.row} in a plan, expected a row of the handbook`);
  const { label, material, bore, wall, roughness, rating } = row;
  return { kind: 'own', label, material, bore, wall, roughness, rating };
}
