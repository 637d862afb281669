import { CAUSES } from '../../src/diagnosis/model/causes.ts';
import { CAUSE_NAMES, lowered } from '../../src/diagnosis/words/cause-names.ts';
import { bandOf, type How, mistakenFor, sharesOf, UNSEPARABLE } from './share-table.ts';
import { type Case, simulatedCases } from './simulated-rams.ts';

/** Rams and seed of the table in docs/diagnosis.md. */
export const DOCUMENT_RAMS = 60;
export const DOCUMENT_SEED = 7;

const percent = (share: number) => `${Math.round(100 * share)} %`;

const SEVERITIES: Readonly<Record<(typeof CAUSES)[number]['code'], string>> = {
  healthy: '',
  'level-sunk': 'fall that is left, a share',
  'valve-heavy': 'weight, times',
  'valve-light': 'weight, times',
  'seat-leak': 'of the open waste valve',
  'body-leak': 'of the open waste valve',
  'check-leak': 'of the open check valve',
  'check-slow': 'added to its lag, s',
  'air-in-water': 'of the volume',
  'air-pocket': 'of the drive pipe’s volume',
  'chamber-empty': 'of its air that is left',
  'strainer-clogged': 'velocity heads added',
  'outlet-drowned': 'of the fall',
  'delivery-throttled': 'of the lift, at the usual delivery',
  'delivery-summit': 'of the lift',
  'delivery-leak': 'of the delivery lost',
  'no-back-pressure': 'of the lift that is left',
  'drive-pipe-soft': 'wave speed that is left, a share',
};

/** The table of causes as the program has it. */
export function causesTable(): string {
  const rows = CAUSES.map(({ code, prior, severity }) => {
    const range = code === 'healthy' ? '' : `${severity.least} to ${severity.most} ${SEVERITIES[code]}`;
    return `| \`${code}\` | ${lowered(CAUSE_NAMES[code])} | ${prior} | ${range} |`;
  });
  return ['| code | what it is | weight before | severity |', '|---|---|---|---|', ...rows].join('\n');
}

/** The tables of how often it is right. */
export function shareTables(cases: readonly Case[]): string {
  const counted = cases.filter(({ truth }) => truth !== UNSEPARABLE);
  const line = (how: How, name: string) => {
    const { first, amongThree, cases: count } = sharesOf(counted, how);
    return `| ${name} | ${count} | ${percent(first)} | ${percent(amongThree)} |`;
  };
  const bands = [0.2, 0.4, 0.6, 0.8, 0.95, 1.0001];
  const calibration = bands.slice(0, -1).map((least, i) => {
    const most = bands[i + 1] ?? 1;
    const cell = (how: How) => {
      const { right, count } = bandOf(counted, how, least, most);
      return `${percent(right)} of ${count}`;
    };
    return `| ${percent(least)} to ${percent(Math.min(1, most))} | ${cell('withRecord')} | ${cell('without')} |`;
  });
  const causes = CAUSES.map(({ code }) => {
    const own = cases.filter(({ truth }) => truth === code);
    const cell = (how: How) => {
      const { first, amongThree } = sharesOf(own, how);
      return `${percent(first)} | ${percent(amongThree)}`;
    };
    const instead = mistakenFor(own, code, 'withRecord').slice(0, 2);
    return `| \`${code}\` | ${cell('withRecord')} | ${cell('without')} | ${instead.map((one) => `\`${one}\``).join(', ')} |`;
  });
  return [
    '| readings | cases | true cause first | among three |',
    '|---|---|---|---|',
    line('withRecord', 'with the ram’s own record'),
    line('without', 'without'),
    '',
    '| chance that was said | right, with record | right, without |',
    '|---|---|---|',
    ...calibration,
    '',
    '| true cause | first, with record | among three | first, without | among three | mostly taken for |',
    '|---|---|---|---|---|---|',
    ...causes,
  ].join('\n');
}

export function documentCases(rams = DOCUMENT_RAMS, seed = DOCUMENT_SEED): Case[] {
  return simulatedCases(rams, seed);
}
