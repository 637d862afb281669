import { changePoint, type PointChanges, setStanding } from '../../../plan/edits/edit-points.ts';
import type { PlanPoint, SourcePoint, StandpipePoint, TankPoint, TroughPoint } from '../../../plan/model/plan.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import type { Problem } from '../../../units/outcome.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

/** What is built at a point, by its role. */
export function PointHeights({ point }: { readonly point: PlanPoint }) {
  switch (point.role) {
    case 'source':
      return <SourceFields point={point} />;
    case 'standpipe':
      return <StandpipeFields point={point} />;
    case 'pump':
      return (
        <Fields>
          <Field
            label="Waste valve outlet"
            note="negative in a pit"
            value={point.wasteValveHeight}
            onValue={(wasteValveHeight) => edit((p) => changePoint(p, point.id, 'pump', { wasteValveHeight }))}
          />
        </Fields>
      );
    case 'tank':
      return <TankFields point={point} />;
    case 'trough':
      return <TroughFields point={point} />;
  }
}

function Fields({ children }: { readonly children: preact.ComponentChildren }) {
  return <div class="fields">{children}</div>;
}

interface FieldProps {
  readonly label: string;
  readonly value: number;
  readonly note?: string;
  readonly kind?: QuantityKind;
  readonly onValue: (value: number) => readonly Problem[];
}

function Field({ label, value, note, kind = 'height', onValue }: FieldProps) {
  return (
    <QuantityField
      label={label}
      value={value}
      kind={kind}
      units={plan.value.units}
      {...(note === undefined ? {} : { note })}
      onValue={(typed) => (typed === null ? [] : onValue(typed))}
    />
  );
}

function SourceFields({ point }: { readonly point: SourcePoint }) {
  const change = (changes: Partial<Pick<SourcePoint, 'waterLevel' | 'storage'>>) =>
    edit((p) => changePoint(p, point.id, 'source', changes));
  return (
    <Fields>
      <Field
        label="Water surface"
        note="negative when it stands below the bank"
        value={point.waterLevel}
        onValue={(waterLevel) => change({ waterLevel })}
      />
      <Field
        label="Water held in the spring box"
        kind="volume"
        value={point.storage}
        onValue={(storage) => change({ storage })}
      />
    </Fields>
  );
}

function StandpipeFields({ point }: { readonly point: StandpipePoint }) {
  const change = (changes: Partial<Pick<StandpipePoint, 'inletHeight' | 'topHeight' | 'bore'>>) =>
    edit((p) => changePoint(p, point.id, 'standpipe', changes));
  return (
    <Fields>
      <Field
        label="Inlet of the drive pipe"
        note="its middle"
        value={point.inletHeight}
        onValue={(inletHeight) => change({ inletHeight })}
      />
      <Field label="Top" value={point.topHeight} onValue={(topHeight) => change({ topHeight })} />
      <Field label="Bore" kind="bore" value={point.bore} onValue={(bore) => change({ bore })} />
    </Fields>
  );
}

function TankFields({ point }: { readonly point: TankPoint }) {
  const change = (changes: Partial<Pick<TankPoint, 'inletHeight' | 'outletHeight' | 'volume'>>) =>
    edit((p) => changePoint(p, point.id, 'tank', changes));
  return (
    <Fields>
      <Field
        label="Inlet"
        note="where the water comes out"
        value={point.inletHeight}
        onValue={(inletHeight) => change({ inletHeight })}
      />
      <Field label="Outlet" value={point.outletHeight} onValue={(outletHeight) => change({ outletHeight })} />
      <Field label="Volume" kind="volume" value={point.volume} onValue={(volume) => change({ volume })} />
      <ChoiceField
        label="Choice"
        value={point.standing}
        choices={[
          { value: 'kept', words: 'chosen' },
          { value: 'candidate', words: 'maybe' },
          { value: 'set-aside', words: 'ruled out' },
        ]}
        onValue={(standing) => edit((p) => setStanding(p, point.id, standing))}
      />
    </Fields>
  );
}

function TroughFields({ point }: { readonly point: TroughPoint }) {
  const change = (changes: PointChanges<'trough'>) => edit((p) => changePoint(p, point.id, 'trough', changes));
  const { units } = plan.value;
  return (
    <Fields>
      <Field
        label="Float valve"
        note="its outlet"
        value={point.valveHeight}
        onValue={(valveHeight) => change({ valveHeight })}
      />
      <QuantityField
        label="Float valve limit"
        kind="flow"
        value={point.valveFlow}
        units={units}
        optional
        note="leave blank for whatever the line brings"
        onValue={(valveFlow) => change({ valveFlow })}
      />
      <Field label="Volume" kind="volume" value={point.volume} onValue={(volume) => change({ volume })} />
      <QuantityField
        label="Share of the herd that drinks here"
        kind="share"
        value={point.herdShare}
        units={units}
        optional
        note="leave blank for the same as the other troughs"
        onValue={(herdShare) => change({ herdShare })}
      />
    </Fields>
  );
}
