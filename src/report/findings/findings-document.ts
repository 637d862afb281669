import { FINDINGS, type FindingCode, type FindingKind } from '../../evaluation/findings/catalogue.ts';
import { tellersOf } from '../../evaluation/findings/implied-findings.ts';
import { TOLERANCES, type Tolerance } from '../../evaluation/statistics/tolerances.ts';
import { criterion } from '../../handbook/practice-criteria.ts';
import { writeQuantity } from '../../units/write-quantity.ts';
import type { FindingText, Words } from './finding-text.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Facts of unusual plans: part of the herd at a trough, troughs on the source, pumps side by side. */
const ONLY_SOMETIMES: ReadonlySet<string> = new Set(['share', 'drawn', 'pumps']);

/** Stand-ins for what a sentence fills in. */
const PLACES: Words = {
  about: '‹name›',
  value: '‹value›',
  likely: '‹value›',
  limit: '‹limit›',
  fact: (name) => (ONLY_SOMETIMES.has(name) ? '' : `‹${name}›`),
  text: (name) => `‹${name}›`,
};

const BEARS: Readonly<Record<FindingKind['bears'], string>> = {
  running: 'whether it runs',
  yield: 'how much arrives',
  safety: 'whether pipes and people are safe',
  practice: 'good practice; does not decide the verdict',
};

function limitOf(kind: FindingKind): string {
  const side = kind.side === 'at-least' ? 'at least' : 'at most';
  return kind.criterion === null ? `${side} what the plan sets` : `${side} ${criterion(kind.criterion).published}`;
}

function toleranceRow({ kind, value, about }: Tolerance): string {
  const size = kind === 'ratio' ? `× ${value}` : writeQuantity(value, kind, 'metric');
  return `| ${size} | ${about} |\n`;
}

function chapter(code: FindingCode): string {
  const kind: FindingKind = FINDINGS[code];
  const text: FindingText = FINDING_TEXTS[code];
  const tellers = tellersOf(code).map((other) => `\`${other}\``);
  const rows = [
    ['compares', kind.compares],
    ...(kind.reaches.length > 1 ? [['limit', limitOf(kind)] as const] : []),
    ['bears on', BEARS[kind.bears]],
    ['comes out as', kind.reaches.join(', ')],
    ['source', kind.criterion === null ? kind.source : criterion(kind.criterion).source],
    ['says', text.sentence(PLACES)],
    ...(text.fails ? [['when it fails', text.fails(PLACES)] as const] : []),
    ['when it must be measured', text.measure(PLACES)],
    ...(tellers.length > 0 ? [['not told beside', tellers.join(', ')] as const] : []),
  ];
  return `## ${text.title}\n\n\`${code}\`\n\n| | |\n|---|---|\n${rows.map(([name, value]) => `| ${name} | ${value} |\n`).join('')}`;
}

/** The catalogue of findings as a page of the documentation. */
export function findingsDocument(): string {
  const codes = Object.keys(FINDINGS) as FindingCode[];
  return `# Findings

Everything the planner judges, written from the code. A finding compares a value that has a spread with a limit and says
**holds**, **measure** or **fails**: it holds or fails when the chance is beyond the plan's confidence (usually 0.9), and
must be measured in between. ${codes.length} findings.

What nobody can know from a desk (no height, no reading of the source, heights from two files) has no value to compare and must
always be measured. What mends one finding often mends another; that other is then left out, and its row “not told beside” says
next to which. The verdicts still rest on all of them. A remedy's numbers are those with which the finding holds at the plan's
confidence.

## Spreads

Heights spread by the class of the elevation model, the source by its readings, the pump's efficiency by its band, the bore of
a standard pipe by its standard, its roughness by its published range. The rest (95 % intervals, common practice, no source):

| ± | of |
|---|---|
${Object.values(TOLERANCES).map(toleranceRow).join('')}
Three inputs are taken as they are entered: what is built (inlets, valves, tops above ground), the water's temperature (3 °C move
a loss by 2 %), and the herd's need, which is the upper end of the printed figure and so a choice rather than an estimate.

${codes.map(chapter).join('\n')}`;
}
