import { describe, expect, it } from 'vitest';
import { highestDeliveryHead } from '../../src/ram/cycle/delivery-steps.ts';
import { driveLengths } from '../../src/ram/cycle/drive-length.ts';
import { blockedPeak, leastFall, ramLimits, reopeningBand } from '../../src/ram/cycle/limits.ts';
import { lumpedCycle } from '../../src/ram/cycle/lumped-cycle.ts';
import { exampleHeads, exampleRam } from './example-ram.ts';

describe('the limits of a ram', () => {
  it('reach 166 m above the source in steel and 34 m in soft polyethylene at 1.16 m/s', () => {
    // Joukowsky head a v/g with a = 1400 m/s for steel, 290 m/s for soft polyethylene pipe.
    expect(blockedPeak(exampleRam, 2.4, 1.16) - 2.4).toBeCloseTo(165.6, 1);
    expect(blockedPeak({ ...exampleRam, waveSpeed: 290 }, 2.4, 1.16) - 2.4).toBeCloseTo(34.3, 1);
  });

  it('let nothing through at the highest head and a little just below it', () => {
    const soft = { ...exampleRam, waveSpeed: 290 };
    const closing = { kind: 'share', closureRatio: 0.7, closingTime: 0 } as const;
    const highest = lumpedCycle(soft, exampleHeads, closing).limits?.highestHead ?? 0;
    expect(lumpedCycle(soft, { fall: 2.4, deliveryHead: highest }, closing).stops).toBe('delivery-head-too-high');
    const below = lumpedCycle(soft, { fall: 2.4, deliveryHead: 0.99 * highest }, closing).cycle;
    expect(below?.steps.count).toBe(1);
    expect(below?.delivery).toBeGreaterThan(0);
    expect(highestDeliveryHead(soft, 2.4, 1.16)).toBeLessThan(blockedPeak(soft, 2.4, 1.16));
  });

  it('stick the waste valve open below h_w M/K_wv of fall', () => {
    const stop = leastFall(exampleRam, 0.3);
    expect(stop).toBeCloseTo((0.3 * 17.1) / 6, 12);
    const closing = { kind: 'weight', weightHead: 0.3, closingTime: 0 } as const;
    expect(lumpedCycle(exampleRam, { fall: 0.99 * stop, deliveryHead: 15 }, closing).stops).toBe(
      'waste-valve-sticks-open',
    );
    expect(lumpedCycle(exampleRam, { fall: 1.01 * stop, deliveryHead: 15 }, closing).stops).toBeNull();
  });

  it('ask 2 H − h_w of an ideal check valve, and less of one that shuts late', () => {
    expect(reopeningBand(exampleRam, 2.4, 0.3)).toEqual({ unlikelyBelow: 2 * 2.4 - 0.3, sureAbove: null });
    const late = reopeningBand({ ...exampleRam, checkLag: 0.003 }, 2.4, 0.3);
    expect(late.sureAbove).toBeCloseTo(2 * 2.4 - 0.3, 12);
    expect(late.unlikelyBelow).toBeCloseTo(2.4 + 2.1 / 3, 12);
    const later = reopeningBand({ ...exampleRam, checkLag: 0.013 }, 2.4, 0.3);
    expect(later.unlikelyBelow).toBeCloseTo(2.4 + 2.1 / 5, 12);
    expect(later.sureAbove).toBeCloseTo(2.4 + 2.1 / 3, 12);
  });

  it('need no pump for an outlet that is not above the source', () => {
    const run = lumpedCycle(
      exampleRam,
      { fall: 2.4, deliveryHead: 2.4 },
      { kind: 'share', closureRatio: 0.7, closingTime: 0 },
    );
    expect(run).toEqual({ stops: 'no-pump-needed', cycle: null, limits: null });
  });

  it('stop a ram whose check valve lets back more than went out', () => {
    const slow = { ...exampleRam, checkLag: 0.2 };
    const run = lumpedCycle(slow, exampleHeads, { kind: 'share', closureRatio: 0.7, closingTime: 0 });
    expect(run.stops).toBe('check-valve-too-slow');
  });

  it('come together for one closing', () => {
    const limits = ramLimits(exampleRam, { fall: 2.4, weightHead: 0.3, shutVelocity: 1.16 });
    expect(limits.blockedPeak).toBe(blockedPeak(exampleRam, 2.4, 1.16));
    expect(limits.leastFall).toBe(leastFall(exampleRam, 0.3));
  });
});

describe('the length of the drive pipe', () => {
  it('is seven falls where 150 to 1000 bores allow it', () => {
    // Calvert's rule as printed by NITK; 5 to 10 falls by Trullinger, USDA 1914.
    const lengths = driveLengths(0.025, 2.4);
    expect(lengths.byBore.least).toBeCloseTo(3.75, 12);
    expect(lengths.byBore.most).toBeCloseTo(25, 12);
    expect(lengths.both).toEqual({ least: 12, most: 24 });
    expect(lengths.usual).toBeCloseTo(16.8, 12);
  });

  it('shows both rules when they conflict, and goes as near as the bore allows', () => {
    const lengths = driveLengths(0.1, 0.5);
    expect(lengths.both).toBeNull();
    expect(lengths.byFall).toEqual({ least: 2.5, most: 5 });
    expect(lengths.usual).toBeCloseTo(15, 12);
  });
});
