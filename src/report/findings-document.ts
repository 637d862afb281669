import { FINDINGS, type FindingCode, type FindingKind } from '../evaluation/findings/catalogue.ts';
import { criterion } from '../handbook/practice-criteria.ts';
import type { FindingText, Words } from './finding-text.ts';
import { FINDING_TEXTS } from './finding-texts.ts';

/** Stand-ins for what a sentence fills in. */
const PLACES: Words = {
  about: '‹name›',
  value: '‹value›',
  likely: '‹value›',
  limit: '‹limit›',
  fact: (name) => `‹${name}›`,
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

function chapter(code: FindingCode): string {
  const kind: FindingKind = FINDINGS[code];
  const text: FindingText = FINDING_TEXTS[code];
  const rows = [
    ['compares', kind.compares],
    ['limit', limitOf(kind)],
    ['bears on', BEARS[kind.bears]],
    ['comes out as', kind.reaches.join(', ')],
    ['source', kind.criterion === null ? kind.source : criterion(kind.criterion).source],
    ['says', text.sentence(PLACES)],
    ...(text.fails ? [['when it fails', text.fails(PLACES)] as const] : []),
    ['when it must be measured', text.measure(PLACES)],
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

${codes.map(chapter).join('\n')}`;
}
