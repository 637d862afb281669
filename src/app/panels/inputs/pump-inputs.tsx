import { setPump } from '../../../plan/edits/edit-water.ts';
import type { PhysicalRam, PumpChoice, PumpSheet, UnitSystem } from '../../../plan/model/plan.ts';
import { efficiencySentence, efficiencyWords } from '../../../report/words/pump-size-words.ts';
import { INCH_M, LITRE_M3, MINUTE_S, US_GALLON_M3 } from '../../../units/factor.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { choosePump, edit, sayRefusal } from '../../actions/edit-actions.ts';
import { evaluation, plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { CountField } from '../fields/count-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { TextField } from '../fields/text-field.tsx';
import { BeatPanel } from '../trouble/beat-panel.tsx';
import { MeasuredRunFields } from './measured-run-fields.tsx';

/** Figures to be typed over: common practice without a source, and no product's. */
const SHEET_LABEL = 'Pump by its sheet';
const RAM_LABEL = 'Ram by its dimensions';
const FIRST = {
  metric: {
    sheet: { driveBore: 0.04, intakeLeast: 0.0003, intakeMost: 0.001 },
    ram: { driveBore: 0.04, valveStroke: 0.005, airChamber: 4 * LITRE_M3 },
  },
  us: {
    sheet: {
      driveBore: 1.5 * INCH_M,
      intakeLeast: (5 * US_GALLON_M3) / MINUTE_S,
      intakeMost: (15 * US_GALLON_M3) / MINUTE_S,
    },
    ram: { driveBore: 1.5 * INCH_M, valveStroke: 0.2 * INCH_M, airChamber: US_GALLON_M3 },
  },
} as const;

const firstSheet = (units: UnitSystem): PumpSheet => ({
  kind: 'sheet',
  label: SHEET_LABEL,
  count: 1,
  ...FIRST[units].sheet,
  intakeSet: null,
  efficiency: null,
  efficiencyCurve: [],
  leastDeliveryHead: null,
  measured: null,
});

const FIRST_EFFICIENCY = { low: 0.45, likely: 0.55, high: 0.65 };

const firstRam = (units: UnitSystem): PhysicalRam => ({
  kind: 'ram',
  label: RAM_LABEL,
  count: 1,
  ...FIRST[units].ram,
  wasteValveLoss: 6,
  checkValveLoss: 4,
  valveWeightHead: null,
  checkLag: 0.003,
  measured: null,
});

/** The pump, by the sheet that came with it or by its parts. */
export function PumpInputs() {
  const { pump } = plan.value;
  return (
    <div>
      <ChoiceField
        label="Pump data from"
        value={pump?.kind ?? 'none'}
        choices={[
          { value: 'none', words: 'not chosen yet' },
          { value: 'sheet', words: 'maker’s sheet' },
          { value: 'ram', words: 'its dimensions' },
        ]}
        onValue={(kind) => choosePump(kind, { sheet: firstSheet(plan.value.units), ram: firstRam(plan.value.units) })}
      />
      {pump?.kind === 'sheet' ? <SheetFields sheet={pump} /> : null}
      {pump?.kind === 'ram' ? <RamFields ram={pump} /> : null}
      <EfficiencyNote pump={pump} />
      {pump === null ? null : <MeasuredRunFields />}
      {pump === null ? null : <BeatPanel />}
    </div>
  );
}

function EfficiencyNote({ pump }: { readonly pump: PumpChoice | null }) {
  const efficiency = evaluation.value?.pump?.efficiency;
  if (efficiency === undefined || pump === null) return null;
  return (
    <p class="note" data-field="efficiency" data-value={efficiency.likely}>
      Calculated with an efficiency of {efficiencyWords(efficiency, plan.value.units)}.{' '}
      {efficiencySentence(pump, evaluation.value?.pump?.measuredRuns ?? 0)}
    </p>
  );
}

type NumberOf<T> = { [K in keyof T]: T[K] extends number | null ? K : never }[keyof T] & string;

interface NumberFieldProps<T> {
  readonly part: T;
  readonly name: NumberOf<T>;
  readonly label: string;
  readonly kind: QuantityKind;
  readonly note?: string;
  readonly optional?: boolean;
}

function PartField<T extends PumpChoice>({ part, name, label, kind, note, optional }: NumberFieldProps<T>) {
  const value: unknown = part[name];
  return (
    <QuantityField
      label={label}
      kind={kind}
      value={typeof value === 'number' ? value : null}
      units={plan.value.units}
      {...(optional === undefined ? {} : { optional })}
      {...(note === undefined ? {} : { note })}
      onValue={(typed) => edit((p) => setPump(p, { ...part, [name]: typed }))}
    />
  );
}

function StartingNote({ shown }: { readonly shown: boolean }) {
  if (!shown) return null;
  return <p class="note wide">These figures are for no real pump: type those of your pump over them, and its name.</p>;
}

/** Equal pumps, each on its own drive pipe; all other figures are those of one. */
function SideBySide({ pump }: { readonly pump: PumpChoice }) {
  return (
    <>
      <CountField
        label="Pumps side by side"
        value={pump.count}
        onValue={(count) => edit((p) => setPump(p, { ...pump, count }))}
      />
      {pump.count === 1 ? null : (
        <p class="note wide">
          {pump.count} equal pumps, each on a drive pipe of its own, with one delivery line. The figures here are those
          of one.
        </p>
      )}
    </>
  );
}

function SheetFields({ sheet }: { readonly sheet: PumpSheet }) {
  return (
    <div class="fields">
      <StartingNote shown={sheet.label === SHEET_LABEL} />
      <TextField label="Called" value={sheet.label} onValue={(label) => edit((p) => setPump(p, { ...sheet, label }))} />
      <SideBySide pump={sheet} />
      <PartField part={sheet} name="driveBore" label="Drive pipe bore" kind="bore" />
      <PartField part={sheet} name="intakeLeast" label="Minimum flow" kind="flow" />
      <PartField part={sheet} name="intakeMost" label="Maximum flow" kind="flow" />
      <PartField
        part={sheet}
        name="intakeSet"
        label="Tuned to use"
        kind="flow"
        optional
        note="leave blank for the most that source, line and pump allow"
      />
      <PartField part={sheet} name="leastDeliveryHead" label="Minimum lift pressure" kind="height" optional />
      <EfficiencyFields sheet={sheet} />
    </div>
  );
}

function EfficiencyFields({ sheet }: { readonly sheet: PumpSheet }) {
  const { efficiency } = sheet;
  const set = (next: PumpSheet['efficiency']) => edit((p) => setPump(p, { ...sheet, efficiency: next }));
  if (efficiency === null) {
    return (
      <p class="buttons">
        <button type="button" onClick={() => sayRefusal(set(FIRST_EFFICIENCY))}>
          Enter its efficiency
        </button>
      </p>
    );
  }
  const field = (name: 'low' | 'likely' | 'high', label: string) => (
    <QuantityField
      label={label}
      kind="share"
      value={efficiency[name]}
      units={plan.value.units}
      onValue={(typed) => (typed === null ? [] : set({ ...efficiency, [name]: typed }))}
    />
  );
  return (
    <>
      {field('low', 'Efficiency, low')}
      {field('likely', 'Efficiency, likely')}
      {field('high', 'Efficiency, high')}
      <p class="buttons">
        <button type="button" class="quiet" onClick={() => sayRefusal(set(null))}>
          use the usual range again
        </button>
      </p>
    </>
  );
}

function RamFields({ ram }: { readonly ram: PhysicalRam }) {
  return (
    <div class="fields">
      <StartingNote shown={ram.label === RAM_LABEL} />
      <TextField label="Called" value={ram.label} onValue={(label) => edit((p) => setPump(p, { ...ram, label }))} />
      <SideBySide pump={ram} />
      <PartField part={ram} name="driveBore" label="Drive pipe bore" kind="bore" />
      <PartField
        part={ram}
        name="wasteValveLoss"
        label="Waste valve loss factor"
        kind="ratio"
        note="leave as it is if unknown"
      />
      <PartField
        part={ram}
        name="checkValveLoss"
        label="Check valve loss factor"
        kind="ratio"
        note="leave as it is if unknown"
      />
      <PartField
        part={ram}
        name="valveWeightHead"
        label="Head that holds the waste valve open"
        kind="height"
        optional
        note="leave blank to let the planner find a setting"
      />
      <PartField part={ram} name="valveStroke" label="Waste valve stroke" kind="bore" />
      <PartField part={ram} name="checkLag" label="Check valve lag" kind="duration" />
      <PartField part={ram} name="airChamber" label="Air chamber" kind="volume" />
    </div>
  );
}
