import { type ImportChoices, suggestChoices } from '../../plan/exchange/import-choices.ts';
import { importInto } from '../../plan/exchange/import-into.ts';
import { type FoundItem, importLimits } from '../../plan/exchange/import-preview.ts';
import type { PointRole, RouteRole } from '../../plan/model/plan.ts';
import { importing } from '../state/jobs-store.ts';
import { plan } from '../state/store.ts';
import { edit } from './edit-actions.ts';

/** Reads a file of points and lines and shows what is in it; nothing of the plan changes yet. */
export async function lookAtImport(file: File): Promise<void> {
  if (file.size > importLimits.bytes) {
    const found = `${file.size} bytes`;
    const problem = { code: 'too-large', path: '', found, expected: `at most ${importLimits.bytes} bytes` };
    importing.value = { kind: 'refused', file: file.name, problems: [problem] };
    return;
  }
  const { readImport } = await import('../../plan/exchange/read-import.ts');
  const read = readImport({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) });
  importing.value = read.ok
    ? { kind: 'choosing', preview: read.value, choices: suggestChoices(plan.value, read.value), problems: [] }
    : { kind: 'refused', file: file.name, problems: read.problems };
}

/** Chooses what an item of the file becomes; null leaves it out. */
export function chooseImport(item: FoundItem, role: PointRole | RouteRole | null): void {
  const state = importing.value;
  if (state.kind !== 'choosing') return;
  const others = <Choice extends { readonly item: string }>(list: readonly Choice[]) =>
    list.filter((choice) => choice.item !== item.key);
  const { points, lines } = state.choices;
  const changed: Partial<ImportChoices> =
    item.kind === 'point'
      ? { points: role === null ? others(points) : [...others(points), { item: item.key, role: role as PointRole }] }
      : { lines: role === null ? others(lines) : [...others(lines), { item: item.key, role: role as RouteRole }] };
  importing.value = { ...state, choices: { ...state.choices, ...changed }, problems: [] };
}

/** Adds what is chosen as one step; what is wrong with the choice stays beside it. */
export function addImport(): void {
  const state = importing.value;
  if (state.kind !== 'choosing') return;
  const problems = edit((present) => importInto(present, state.preview, state.choices));
  importing.value = problems.length === 0 ? { kind: 'idle' } : { ...state, problems };
}

export function leaveImport(): void {
  importing.value = { kind: 'idle' };
}
