// The transient model of the ram: node-steps a second, and against the same scheme in C where there is a compiler.
import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { importBundled } from '../../scripts/lib/bundle-source.mjs';

const run = promisify(execFile);
const source = fileURLToPath(new URL('ram-transient.c', import.meta.url));

/** The ram of the C program. */
const setup = {
  ram: {
    bore: 0.025,
    length: 8,
    waveSpeed: 1400,
    darcyFactor: 0.03,
    entranceLoss: 0.5,
    bendLoss: 1,
    wasteValveLoss: 6,
    checkValveLoss: 4,
    checkLag: 0.003,
  },
  fall: 2.4,
  deliveryHead: 15,
  closing: { kind: 'stroke', weightHead: 0.3, stroke: 0.005 },
  airChamber: null,
  standpipe: null,
  vapourHead: -10.2,
};

const grids = [40, 100, 200];
const nodeStepsEach = 4e7;
const rounds = 7;

export async function bench(report) {
  const { TransientSystem } = await importBundled('src/ram/transient/transient-system.ts');
  const folder = await mkdtemp(join(tmpdir(), 'ram-transient-'));
  try {
    const program = await compile(join(folder, 'ram-transient'));
    for (const reaches of grids) await benchGrid(report, TransientSystem, program, reaches);
    if (program === null) report('the same scheme in C', 'not run', '', 'no C compiler (cc or gcc) found');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Both take turns and count their own processor time, so that a busy machine counts for neither; medians of the rounds. */
async function benchGrid(report, TransientSystem, program, reaches) {
  const steps = Math.round(nodeStepsEach / (reaches + 1));
  const ours = [];
  const theirs = [];
  let apart = 0;
  timed(TransientSystem, reaches, steps);
  for (let round = 0; round < rounds; round += 1) {
    const here = timed(TransientSystem, reaches, steps);
    ours.push(here.rate);
    if (program === null) continue;
    const there = await timedInC(program, reaches, steps);
    theirs.push(there.rate);
    apart = Math.max(apart, Math.abs(here.taken / there.taken - 1), Math.abs(here.delivered / there.delivered - 1));
  }
  report(`node-steps, ${reaches} reaches`, median(ours) / 1e6, 'million/s', 'at least 80 wanted');
  if (program === null) return;
  report(`the same in C (-O2), ${reaches} reaches`, median(theirs) / 1e6, 'million/s');
  report(`share of C's speed, ${reaches} reaches`, median(ours) / median(theirs), '', 'at least 0.7 wanted');
  report(`water taken and delivered apart by, ${reaches} reaches`, apart, '', 'relative; the two are one scheme');
}

function timed(TransientSystem, reaches, steps) {
  const system = new TransientSystem({ ...setup, reaches });
  const dt = system.pipe.timeStep;
  let taken = 0;
  let delivered = 0;
  const from = process.cpuUsage();
  for (let i = 0; i < steps; i += 1) {
    system.step();
    taken += system.inletVelocity * dt;
    delivered += system.pump.checkVelocity * dt;
  }
  const spent = process.cpuUsage(from);
  const seconds = (spent.user + spent.system) / 1e6;
  return { rate: (steps * system.pipe.nodes) / seconds, taken, delivered };
}

async function timedInC(program, reaches, steps) {
  const { stdout } = await run(program, [String(reaches), String(steps)]);
  const [nodeSteps, seconds, taken, delivered] = stdout.trim().split(' ').map(Number);
  return { rate: nodeSteps / seconds, taken, delivered };
}

async function compile(program) {
  for (const compiler of ['cc', 'gcc']) {
    try {
      await run(compiler, ['-O2', '-o', program, source, '-lm']);
      return program;
    } catch (error) {
      if (error.code !== 'ENOENT') throw error;
    }
  }
  return null;
}

function median(values) {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}
