import { useState } from 'preact/hooks';
import { measuredRun } from '../../../diagnosis/model/field-of-plan.ts';
import { channelValue } from '../../../diagnosis/words/channel-words.ts';
import { setPump } from '../../../plan/edits/edit-water.ts';
import type { RunRecord } from '../../../plan/model/plan.ts';
import { recordFigure } from '../../../report/figure/record-figure.ts';
import { METRE_HEAD_PA } from '../../../units/factor.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { changeRecords, keepAsRecord } from '../../actions/diagnosis-actions.ts';
import { editOrSay } from '../../actions/edit-actions.ts';
import { readings } from '../../state/diagnosis-store.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { Figure } from '../fields/estimate-figure.tsx';
import { ProblemList } from '../fields/problem-list.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';
import { TextField } from '../fields/text-field.tsx';

type NumberKey = {
  [K in keyof RunRecord]: RunRecord[K] extends number | null ? K : never;
}[keyof RunRecord];

const FIELDS: readonly {
  readonly key: NumberKey;
  readonly label: string;
  readonly kind: QuantityKind;
  readonly factor: number;
}[] = [
  { key: 'level', label: 'Water at the drive pipe’s inlet', kind: 'height', factor: 1 },
  { key: 'beatsPerMinute', label: 'Beats a minute', kind: 'ratio', factor: 1 },
  { key: 'waste', label: 'Waste water', kind: 'flow', factor: 1 },
  { key: 'delivery', label: 'Delivery', kind: 'flow', factor: 1 },
  { key: 'gaugeRest', label: 'Gauge, at rest', kind: 'pressure', factor: METRE_HEAD_PA },
  { key: 'gaugeRunning', label: 'Gauge, running', kind: 'pressure', factor: METRE_HEAD_PA },
  { key: 'gaugeSwing', label: 'Swing of the gauge', kind: 'pressure', factor: METRE_HEAD_PA },
  { key: 'valveWeight', label: 'Weight of the waste valve', kind: 'mass', factor: 1 },
  { key: 'valveStroke', label: 'Stroke of the waste valve', kind: 'bore', factor: 1 },
];

const today = () => new Date().toISOString().slice(0, 10);

const emptyRecord = (): RunRecord => ({
  date: today(),
  by: '',
  level: null,
  beatsPerMinute: null,
  waste: null,
  delivery: null,
  deliveryReadAt: 'tank',
  gaugeRest: null,
  gaugeRunning: null,
  gaugeSwing: null,
  valveWeight: null,
  valveStroke: null,
  note: '',
});

/** What was read when it ran well, several times over, kept in the plan; the latest is what readings are compared with. */
export function RecordsPart() {
  const records = plan.value.records ?? [];
  const { units } = plan.value;
  return (
    <section aria-labelledby="records-title">
      <h3 id="records-title">When it runs well, keep a record</h3>
      <p>
        Beside a record of the same pump, causes are told apart far better. The latest one is what the readings are
        compared with, and it calibrates the pump.
      </p>
      <KeepNow />
      {records.map((record, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: records have no other name, and their order is that of their dates
        <RecordCard key={index} record={record} index={index} />
      ))}
      <p class="buttons">
        <button type="button" onClick={() => changeRecords((all) => [...all, emptyRecord()])}>
          New record
        </button>
      </p>
      {records.length > 1 ? <RecordTable records={records} /> : null}
      <RecordFigure records={records} units={units} />
    </section>
  );
}

/** What stands in the readings now, kept with one touch. */
function KeepNow() {
  const [problems, setProblems] = useState<ReturnType<typeof keepAsRecord>>([]);
  if (readings.value.beatsPerMinute === null && readings.value.waste === null) return null;
  return (
    <>
      <p class="buttons">
        <button type="button" onClick={() => setProblems(keepAsRecord(today(), ''))}>
          Keep what was read now as a record
        </button>
      </p>
      {problems.length > 0 ? <ProblemList problems={problems} file="" /> : null}
    </>
  );
}

function RecordCard({ record, index }: { readonly record: RunRecord; readonly index: number }) {
  const set = (changes: Partial<RunRecord>) =>
    changeRecords((all) => all.map((one, at) => (at === index ? { ...one, ...changes } : one)));
  return (
    <details class="record" open={index === (plan.value.records?.length ?? 0) - 1}>
      <summary>
        Record of {record.date}
        {record.by === '' ? '' : `, by ${record.by}`}
      </summary>
      <div class="reading-fields">
        <TextField label="Date" value={record.date} onValue={(date) => set({ date })} />
        <TextField label="By" value={record.by} onValue={(by) => set({ by })} />
        {FIELDS.map(({ key, label, kind, factor }) => {
          const value = record[key];
          return (
            <QuantityField
              key={key}
              label={label}
              kind={kind}
              units={plan.value.units}
              optional
              value={value === null ? null : value * factor}
              onValue={(typed) => set({ [key]: typed === null ? null : typed / factor })}
            />
          );
        })}
        <ChoiceField
          label="Delivery was caught"
          value={record.deliveryReadAt}
          choices={[
            { value: 'tank', words: 'at the tank' },
            { value: 'pump', words: 'at the pump' },
          ]}
          onValue={(deliveryReadAt) => set({ deliveryReadAt })}
        />
        <TextField label="Note" value={record.note} onValue={(note) => set({ note })} />
      </div>
      <Calibrate record={record} />
      <button type="button" class="quiet" onClick={() => changeRecords((all) => all.filter((_, at) => at !== index))}>
        Delete this record
      </button>
    </details>
  );
}

/** A record with intake, delivery and heads is a measured run of the pump. */
function Calibrate({ record }: { readonly record: RunRecord }) {
  const run = measuredRun(record);
  if (run === null || plan.value.pump === null) return null;
  return (
    <button
      type="button"
      onClick={() => editOrSay((p) => setPump(p, p.pump === null ? null : { ...p.pump, measured: run }))}
    >
      Reckon the plan with this run of the pump
    </button>
  );
}

function RecordTable({ records }: { readonly records: readonly RunRecord[] }) {
  const { units } = plan.value;
  const cell = (record: RunRecord, { key, kind, factor }: (typeof FIELDS)[number]) => {
    const value = record[key];
    return value === null ? '–' : writeQuantity(value * factor, kind, units);
  };
  return (
    <ScrollTable label="Records" kind="records">
      <thead>
        <tr>
          <th scope="col">Date</th>
          {FIELDS.map(({ key, label }) => (
            <th key={key} scope="col">
              {label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {records.map((record) => (
          <tr key={`${record.date} ${record.by}`}>
            <th scope="row">{record.date}</th>
            {FIELDS.map((field) => (
              <td key={field.key} class="number">
                {cell(record, field)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}

function RecordFigure({ records, units }: { readonly records: readonly RunRecord[]; readonly units: 'metric' | 'us' }) {
  const figure = recordFigure(records, {
    width: 480,
    title: 'Beats, delivery and waste of the records over their dates',
    write: (key, value) =>
      key === 'beatsPerMinute'
        ? channelValue('beatsPerMinute', value, units)
        : channelValue(key === 'waste' ? 'waste' : 'deliveryAtTank', value, units),
  });
  return figure === null ? null : (
    <div class="figure-room">
      <Figure node={figure} />
    </div>
  );
}
