import { expect, test } from 'vitest';
import { CAUTIONS, cautionsFor } from '../../src/report/print/caution-words.ts';

const ROLES = ['source', 'standpipe', 'pump', 'tank', 'trough', 'supply', 'drive', 'delivery', 'gravity'] as const;

test('every part of a plan has cautions of its own, and every pipe that of digging or of pressure', () => {
  for (const role of ROLES) expect(cautionsFor(role).length).toBeGreaterThan(0);
  for (const role of ['drive', 'delivery'] as const)
    expect(cautionsFor(role).map(({ title }) => title)).toContain('Pressure and water hammer');
  const told = new Set(ROLES.flatMap((role) => cautionsFor(role).map(({ title }) => title)));
  // What bears on no single part is told on paper and where the flow is entered.
  expect(CAUTIONS.filter(({ title }) => !told.has(title)).map(({ title }) => title)).toEqual(['The dry season']);
});
