import { FINDINGS, type FindingCode } from '../../evaluation/findings/catalogue.ts';
import type { Finding } from '../../evaluation/result/evaluation.ts';
import { pipeOfPlan } from '../../evaluation/site/pipe-of-plan.ts';
import { fittingRow } from '../../handbook/fitting-loss.ts';
import { herdRow } from '../../handbook/livestock-needs.ts';
import { pipeRow } from '../../handbook/pipe-rows.ts';
import { type Criterion, criteria } from '../../handbook/practice-criteria.ts';
import type { Provenance, Sourced } from '../../handbook/provenance.ts';
import { roughnessOf } from '../../handbook/roughness.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FigureNode } from '../figure/figure-node.ts';
import { numberColumn, type ReportTable, textColumn } from '../tables/report-table.ts';
import { conditionWords, groupLabel } from '../words/animal-words.ts';
import { roughnessWords } from '../words/pipe-words.ts';
import { efficiencySentence, efficiencyWords } from '../words/pump-size-words.ts';
import { MODEL_NOT_VALIDATED, NUMBERS_ARE_WORTH } from './caution-words.ts';
import type { PrintSource } from './print-source.ts';
import { list, paragraph, part, sheetTable, subpart } from './sheet-node.ts';

/** How a value came into the handbook. */
const KNOWN: Readonly<Record<Provenance, string>> = {
  found: 'document read',
  library: 'open library',
  computed: 'computed',
  memory: 'from memory',
};

/** A source with how it is known; the two agree where there is no source. */
function sourceWords({ source, provenance }: Sourced): string {
  return provenance === 'found' ? source : `${source} (${KNOWN[provenance]})`;
}

/** Everything the numbers rest on that nobody measured here, with its source. */
export function assumptionsPart(source: PrintSource): FigureNode | null {
  return part(
    'Assumptions and their sources',
    paragraph(NUMBERS_ARE_WORTH),
    subpart('Said in the plan', list(saidSentences(source))),
    subpart('Pump', paragraph(pumpSentence(source)), paragraph(MODEL_NOT_VALIDATED)),
    subpart('Pipes and fittings', sheetTable(pipeRows(source)), sheetTable(fittingRows(source.plan))),
    subpart('Water needs', sheetTable(needRows(source))),
    subpart('Criteria of practice', sheetTable(criterionRows(source), 'criteria')),
  );
}

function saidSentences({ plan, units }: PrintSource): string[] {
  const share = (value: number) => writeQuantity(value, 'share', units);
  return [
    `Water at ${writeQuantity(plan.waterTemperature, 'temperature', units)}.`,
    plan.dryShare === null
      ? 'How much of the source is left in the dry season was not said: all of it is counted on.'
      : `In the dry season the source gives ${share(plan.dryShare)} of what was read.`,
    plan.leftInStream === null
      ? 'How much stays in the stream was not said: nothing is left in it.'
      : `${share(plan.leftInStream)} of the source’s water stays in the stream.`,
    `A limit is said to hold when it does so ${share(plan.confidence)} of the time, and to fail when it fails as often.`,
    'Low, likely and high are the 10th, 50th and 90th percentile.',
  ];
}

function pumpSentence({ plan, site, units }: PrintSource): string {
  const pump = site?.evaluation.pump ?? null;
  if (plan.pump === null || pump === null) return 'No pump is described yet.';
  return `Efficiency ${efficiencyWords(pump.efficiency, units)} (D’Aubuisson). ${efficiencySentence(plan.pump, pump.measuredRuns)}`;
}

function pipeRows({ plan, units }: PrintSource): Omit<ReportTable, 'title'> {
  const used = plan.pipes.filter(({ id }) => plan.routes.some((route) => route.pipe === id));
  return {
    columns: [
      textColumn('Pipe'),
      numberColumn('Bore'),
      numberColumn('Roughness'),
      textColumn('Source of the sizes'),
      textColumn('Source of the roughness'),
    ],
    rows: used.map((pipe) => {
      const { label, bore, roughness } = pipeOfPlan(pipe, plan.waterTemperature);
      const row = pipe.kind === 'row' ? pipeRow(pipe.row) : null;
      const own = 'said in the plan';
      const sources =
        row === null ? [own, own] : [`${row.standard}; ${sourceWords(row)}`, sourceWords(roughnessOf(row.surface))];
      return {
        id: pipe.id,
        cells: [label, writeQuantity(bore, 'bore', units), roughnessWords(roughness, units), ...sources],
      };
    }),
  };
}

function fittingRows(plan: Plan): Omit<ReportTable, 'title'> {
  const used = new Set(plan.routes.flatMap(({ fittings }) => fittings.map(({ fitting }) => fitting)));
  return {
    columns: [textColumn('Fitting'), textColumn('Loss coefficient'), textColumn('Source')],
    rows: [...used].flatMap((id) => {
      const row = fittingRow(id);
      if (row === null) return [];
      const parts = [row.k === 0 ? '' : String(row.k), row.frictionFactors === 0 ? '' : `${row.frictionFactors} f`];
      const loss = parts.filter((words) => words !== '').join(' + ');
      return [{ id, cells: [row.label, loss, sourceWords(row)] }];
    }),
  };
}

function needRows({ plan, units }: PrintSource): Omit<ReportTable, 'title'> {
  return {
    columns: [textColumn('Animals'), numberColumn('Count'), textColumn('Each a day'), textColumn('Source')],
    rows: plan.herd.map((group, i) => {
      const row = group.kind === 'row' ? herdRow(group.row) : null;
      const day = (value: number) => writeQuantity(value, 'daily-volume', units);
      const steps = row?.needs.map(
        ({ condition, low, high }) => `${conditionWords(condition, units)}: ${day(low)} to ${day(high)}`,
      );
      const need = group.kind === 'own' ? day(group.needPerDay) : (steps ?? []).join('; ');
      const label = groupLabel(group, units);
      const from = row === null ? 'said in the plan' : sourceWords(row);
      return { id: String(i), cells: [label, String(group.count), need, from] };
    }),
  };
}

/** Criteria that something in the plan was judged by. */
function applied(findings: readonly Finding[]): readonly Criterion[] {
  const used = new Set(findings.flatMap(({ code }) => FINDINGS[code as FindingCode].criterion ?? []));
  return criteria().filter(({ id }) => used.has(id));
}

function criterionRows({ units, site }: PrintSource): Omit<ReportTable, 'title'> {
  return {
    columns: [textColumn('Criterion'), numberColumn('Value'), textColumn('Source')],
    rows: applied(site?.evaluation.findings ?? []).map((one) => ({
      id: one.id,
      cells: [one.about, writeQuantity(one.value, one.kind, units), sourceWords(one)],
    })),
  };
}
