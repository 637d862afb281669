import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibratedDelivery, calibration } from '../../src/ram/cycle/calibration.ts';
import { lumpedCycle } from '../../src/ram/cycle/lumped-cycle.ts';
import { closureRange, runAt, settingFor, startShare, weightForRatio } from '../../src/ram/cycle/valve-setting.ts';
import { exampleHeads, exampleRam, litresAMinute } from './example-ram.ts';

const ram = { ...exampleRam, checkLag: 0.003 };
const stroke = 0.005;

describe('setting the waste valve', () => {
  it('takes no more than the line brings, and nearly that', () => {
    fc.assert(
      fc.property(fc.double({ min: 10.5, max: 19, noNaN: true }), (litres) => {
        const most = litres / litresAMinute;
        const found = settingFor(ram, exampleHeads, { most, stroke });
        if (!found.ok) throw new Error(found.because);
        expect(found.setting.cycle.driveFlow).toBeLessThanOrEqual(most);
        expect(found.setting.cycle.driveFlow).toBeGreaterThan(0.995 * most);
      }),
      { numRuns: 40 },
    );
  });

  it('gives a weight with which the closed form takes that flow', () => {
    const found = settingFor(ram, exampleHeads, { most: 14 / litresAMinute, stroke });
    if (!found.ok) throw new Error(found.because);
    const run = lumpedCycle(ram, exampleHeads, { kind: 'stroke', weightHead: found.setting.weightHead, stroke });
    expect(run.cycle?.driveFlow).toBeCloseTo(found.setting.cycle.driveFlow, 9);
    expect(startShare(ram, exampleHeads.fall, found.setting.weightHead)).toBeLessThan(found.setting.closureRatio);
  });

  it('is the heaviest of its range when there is water enough', () => {
    const found = settingFor(ram, exampleHeads, { most: 1, stroke });
    if (!found.ok) throw new Error(found.because);
    expect(startShare(ram, exampleHeads.fall, found.setting.weightHead)).toBeCloseTo(closureRange.most, 9);
  });

  it('says what the lightest setting takes when that is too much', () => {
    const found = settingFor(ram, exampleHeads, { most: 2 / litresAMinute, stroke });
    const lightest = runAt(ram, exampleHeads, closureRange.least, stroke).cycle?.driveFlow;
    expect(found).toEqual({ ok: false, because: 'takes-too-much', takes: lightest });
  });

  it('says why it runs at no setting', () => {
    const found = settingFor(ram, { fall: 2.4, deliveryHead: 2.5 }, { most: 1, stroke });
    expect(found).toEqual({ ok: false, because: 'waste-valve-stays-shut' });
  });

  it('finds the weight that shuts at a given ratio, unless the stroke is too long for it', () => {
    const weightHead = weightForRatio(ram, exampleHeads, 0.7, stroke);
    const cycle = lumpedCycle(ram, exampleHeads, { kind: 'stroke', weightHead: weightHead ?? 0, stroke }).cycle;
    expect((cycle?.shutVelocity ?? 0) / (cycle?.terminalVelocity ?? 1)).toBeCloseTo(0.7, 6);
    expect(weightForRatio(ram, exampleHeads, 0.05, 0.05)).toBeNull();
  });
});

describe('a measured run', () => {
  const modelled = settingFor(ram, exampleHeads, { most: 14 / litresAMinute, stroke });

  it('that is the model’s own calibrates to one', () => {
    if (!modelled.ok) throw new Error(modelled.because);
    const { driveFlow, delivery } = modelled.setting.cycle;
    const found = calibration(ram, stroke, { ...exampleHeads, driveFlow, delivery });
    if (!found.ok) throw new Error('expected a calibration');
    expect(found.value.yieldFactor).toBeCloseTo(1, 6);
    expect(found.value.weightHead).toBeCloseTo(modelled.setting.weightHead, 6);
  });

  it('that delivers 60 % of the model’s lowers every other delivery alike', () => {
    if (!modelled.ok) throw new Error(modelled.because);
    const { driveFlow, delivery } = modelled.setting.cycle;
    const found = calibration(ram, stroke, { ...exampleHeads, driveFlow, delivery: 0.6 * delivery });
    if (!found.ok) throw new Error('expected a calibration');
    expect(found.value.yieldFactor).toBeCloseTo(0.6, 6);
    expect(calibratedDelivery(modelled.setting.cycle, exampleHeads, 0.6)).toBeCloseTo(0.6 * delivery, 12);
    expect(calibratedDelivery(modelled.setting.cycle, exampleHeads, 2)).toBeCloseTo((driveFlow * 2.4) / 15, 12);
  });

  it('is refused when it breaks the bound of energy or cannot be this ram’s', () => {
    const impossible = calibration(ram, stroke, { ...exampleHeads, driveFlow: 1e-4, delivery: 5e-5 });
    expect(impossible).toMatchObject({ ok: false, problems: [{ code: 'delivers-more-than-the-fall-can-lift' }] });
    const another = calibration(ram, stroke, { ...exampleHeads, driveFlow: 2e-3, delivery: 1e-4 });
    expect(another).toMatchObject({ ok: false, problems: [{ code: 'measured-run-does-not-fit' }] });
  });
});
