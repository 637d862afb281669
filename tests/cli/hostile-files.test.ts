import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { bombs, cyclic, flipped, impossible, overwritten, truncated } from '../terrain/hostile-corpus.ts';
import { runCommand } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillwright-hostile-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// Where the fixtures lie: EPSG:32630, 500000 E 5200000 N and some metres on (fixtures/README.md).
const LINE = JSON.stringify({
  type: 'LineString',
  coordinates: [
    [-2.9999, 46.9526],
    [-2.9997, 46.9524],
  ],
});

test('no malformed file ends a command with 1, a stack or more than one line', async () => {
  const files = [...truncated(), ...flipped(12), ...overwritten(12), ...impossible(), ...cyclic(), ...bombs()];
  for (const [i, file] of files.entries()) {
    const path = join(folder, `bad-${i}.tif`);
    writeFileSync(path, file.bytes);
    const { code, err } = await runCommand(['profile', 'line', '--dem', path, '--json'], { line: LINE });
    expect([0, 2], `${file.name}: ${err}`).toContain(code);
    expect(err, file.name).not.toMatch(/\n.*at |fault of the program/);
    if (code === 2) expect(err.trimEnd().split('\n'), file.name).toHaveLength(1);
  }
}, 300_000);
