import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { runCommand } from './run-command.ts';

interface PipeAnswer {
  readonly flow_L_per_min: number;
  readonly head_loss_m: number;
  readonly velocity_m_s: number;
  readonly reynolds: number;
  readonly friction_factor: number | null;
}

async function pipe(...args: string[]): Promise<PipeAnswer> {
  const { code, out, err } = await runCommand(['pipe', ...args, '--json']);
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as PipeAnswer;
}

describe('the pipe command', () => {
  it('loses in turbulent flow what Colebrook and Weisbach say', async () => {
    // f at Re 1e5 and roughness 1e-4 of the bore from the open library fluids 1.3.1; viscosity 1.0034 mm²/s at 20 °C by IAPWS.
    const flow = (1e5 * Math.PI * 0.1 * 1.0034e-6) / 4;
    const flags = ['--bore', '100mm', '--length', '500m', '--roughness', '0.01mm', '--temperature', '20C'];
    const answer = await pipe(...flags, '--flow', `${flow * 60_000} L/min`);
    const speed = (1e5 * 1.0034e-6) / 0.1;
    const expected = (0.018513866077471648 * (500 / 0.1) * speed ** 2) / (2 * 9.80665);
    expect(Math.abs(answer.reynolds / 1e5 - 1)).toBeLessThan(2e-4);
    expect(Math.abs(answer.head_loss_m / expected - 1)).toBeLessThan(2e-4);
    expect(Math.abs(answer.velocity_m_s / speed - 1)).toBeLessThan(1e-9);
  });

  it('carries in laminar flow what Hagen and Poiseuille say', async () => {
    const answer = await pipe('--bore=10mm', '--length=100m', '--head=0.2m', '--temperature=10C');
    // ν 1.3063 mm²/s at 10 °C by IAPWS.
    const flow = (Math.PI * 9.80665 * 0.01 ** 4 * 0.2) / (128 * 1.3063e-6 * 100);
    expect(Math.abs(answer.flow_L_per_min / (flow * 60_000) - 1)).toBeLessThan(2e-4);
    expect(answer.reynolds).toBeLessThan(2000);
  });

  it('answers a head with the flow that loses it', async () => {
    const flags = ['--bore', '0.622in', '--length', '400ft', '--k', '4.5', '--temperature', '50F'];
    const there = await pipe(...flags, '--head', '16 ft 5 in');
    const back = await pipe(...flags, '--flow', `${there.flow_L_per_min}L/min`);
    expect(there.head_loss_m).toBeCloseTo(16 * 0.3048 + 5 * 0.0254, 12);
    expect(back.head_loss_m).toBeCloseTo(there.head_loss_m, 9);
    expect(back.friction_factor).toBeCloseTo(there.friction_factor ?? 0, 12);
  });

  it('reads gallons as US gallons', async () => {
    const answer = await pipe('--bore', '1in', '--length', '10m', '--flow', '3gal/min');
    expect(answer.flow_L_per_min).toBeCloseTo(3 * 3.785411784, 9);
  });

  it('answers no flow with no loss', async () => {
    const answer = await pipe('--bore', '16mm', '--length', '10m', '--head', '0m');
    expect(answer).toMatchObject({
      flow_L_per_min: 0,
      head_loss_m: 0,
      velocity_m_s: 0,
      reynolds: 0,
      friction_factor: null,
    });
  });

  it('prints a readable text in both units without --json', async () => {
    const { out, code } = await runCommand(['pipe', '--bore', '16mm', '--length', '100m', '--head', '5m']);
    expect(code).toBe(0);
    expect(out).toMatch(/^flow +8\.\d\d\u202fL\/min \(2\.\d\d\u202fgal\/min\)$/m);
    expect(out).toMatch(/^head lost +5\.00\u202fm \(16\.4\u202fft\)$/m);
  });
});

const good = ['--bore', '16mm', '--length', '100m'];
const refusals: readonly (readonly [string, readonly string[], RegExp])[] = [
  [
    'a bare number',
    ['--bore', '16', '--length', '100m', '--head', '5m'],
    /--bore: found 16 without a unit, expected .*16 mm/,
  ],
  [
    'a number with more commas than any has',
    ['--bore', '16mm', '--length', '1,2,3ft', '--head', '5m'],
    /--length: found 1,2,3ft, expected a length/,
  ],
  ['a unit of something else', [...good, '--head', '5 psi'], /--head: found 5 psi, a unit of something else/],
  ['no bore', ['--length', '100m', '--head', '5m'], /--bore is missing/],
  ['neither head nor flow', good, /--head or --flow is missing/],
  ['both head and flow', [...good, '--head', '5m', '--flow', '1L/min'], /found --head and --flow, expected one/],
  ['a flag given twice', [...good, '--head', '5m', '--head', '6m'], /--head: found twice/],
  ['a flag without its value', [...good, '--head'], /--head: found no value/],
  ['a switch with a value', [...good, '--head', '5m', '--json=yes'], /--json: found a value/],
  ['an unknown flag', [...good, '--haed', '5m'], /found --haed, expected --bore/],
  ['a stray word', [...good, '--head', '5m', 'please'], /found please/],
  [
    'a bore of nothing',
    ['--bore', '0mm', '--length', '100m', '--head', '5m'],
    /--bore: found 0mm, expected more than 0/,
  ],
  ['a negative head', [...good, '--head', '-5m'], /--head: found -5m, expected 0 or more/],
  ['ice', [...good, '--head', '5m', '--temperature', '-1C'], /--temperature: found -1C, expected 0 to 60 °C/],
  [
    'a wall rougher than the law knows',
    [...good, '--head', '5m', '--roughness', '1mm'],
    /--roughness: found .*at most 0.05/,
  ],
];

describe('the pipe command refuses in one line', () => {
  it.each(refusals)('%s', async (_, flags, message) => {
    const { code, out, err } = await runCommand(['pipe', ...flags, '--json']);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain('\n');
  });
});

describe('the command line', () => {
  it('lists its commands and explains each', async () => {
    const overview = await runCommand(['--help']);
    expect(overview).toMatchObject({ code: 0, err: '' });
    expect(overview.out).toMatch(/^ +pipe +\S/m);
    const help = await runCommand(['pipe', '--help']);
    expect(help).toMatchObject({ code: 0, err: '' });
    expect(help.out).toContain('nothing is kept for the speed');
  });

  it.each([[[]], [['plumb']], [['toString']]])('refuses %j and names what there is', async (args) => {
    const { code, err } = await runCommand(args);
    expect(code).toBe(2);
    expect(err).toMatch(/expected .*pipe/);
  });

  it('runs as a process of its own with nothing but JSON on its output', async () => {
    const args = ['bin/rillwright.mjs', 'pipe', ...good, '--head', '5m', '--json'];
    const { stdout } = await promisify(execFile)(process.execPath, args);
    expect(JSON.parse(stdout)).toMatchObject({ head_loss_m: 5 });
    const refused = promisify(execFile)(process.execPath, ['bin/rillwright.mjs', 'pipe', '--bore', '16']);
    await expect(refused).rejects.toMatchObject({ code: 2, stdout: '' });
  });
});
