import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dAubuissonOf, deliveryOf, efficiencies, greatestShare, rankineOf } from '../../src/ram/cycle/yield.ts';

function good<T>(outcome: { ok: true; value: T } | { ok: false; problems: readonly { code: string }[] }): T {
  if (!outcome.ok) throw new Error(outcome.problems.map((each) => each.code).join());
  return outcome.value;
}

describe('the yield of a ram', () => {
  it('is 45 % by D’Aubuisson and 38.9 % by Rankine in a printed problem', () => {
    // Worked problem, civinnovate.com, 2025: supply 30 L/s under 4 m, 3 L/s lifted to 18 m.
    const found = good(efficiencies({ driveFlow: 30e-3, delivery: 3e-3, fall: 4, deliveryHead: 18 }));
    expect(found.dAubuisson).toBeCloseTo(0.45, 12);
    expect(found.rankine).toBeCloseTo(0.389, 3);
  });

  it('is 71 % for one seventh at five times the fall and for one fourteenth at ten times', () => {
    // R. M. Starbuck, Questions and Answers on the Practice and Theory of Sanitary Plumbing; the same in Building Trades
    // Pocketbook, whose own table of efficiencies contradicts it.
    const seventh = good(efficiencies({ driveFlow: 7, delivery: 1, fall: 1, deliveryHead: 5 }));
    const fourteenth = good(efficiencies({ driveFlow: 14, delivery: 1, fall: 1, deliveryHead: 10 }));
    expect(seventh.dAubuisson).toBeCloseTo(0.714, 3);
    expect(fourteenth.dAubuisson).toBeCloseTo(0.714, 3);
  });

  it.each([
    { fall: 5, lift: 20, litresADay: 236 },
    { fall: 10, lift: 50, litresADay: 187 },
    { fall: 3, lift: 30, litresADay: 87 },
  ])('stays between 0.6 and 0.66 in a printed delivery table: $fall m to $lift m', ({ fall, lift, litresADay }) => {
    // aquatext.com/tables/hydram.htm: litres a day for each litre a minute of supply.
    const found = good(efficiencies({ driveFlow: 1440, delivery: litresADay, fall, deliveryHead: lift }));
    expect(found.dAubuisson).toBeGreaterThan(0.6);
    expect(found.dAubuisson).toBeLessThan(0.66);
  });

  it('brings 1200 gallons a day to a tank 100 ft above the spring when half the work is lost', () => {
    // Question in Peace Corps, A Training Manual in Conducting a Workshop in the Design, Construction, Operation, Maintenance
    // and Repair of Hydrams, 1981: ram 20 ft below the box, 10 US gal/min, 50 %; the head counts from the ram, 120 ft.
    const delivery = good(deliveryOf({ efficiency: 0.5, driveFlow: 10, fall: 20, deliveryHead: 120 }));
    expect(delivery * 1440).toBeCloseTo(1200, 9);
  });

  it('refuses one seventh lifted to eight times the fall', () => {
    // A newspaper of 1917: 5 ft of fall to deliver one seventh 40 ft up, an efficiency of 1.14.
    const claim = efficiencies({ driveFlow: 7, delivery: 1, fall: 5, deliveryHead: 40 });
    expect(claim).toMatchObject({ ok: false, problems: [{ code: 'delivers-more-than-the-fall-can-lift' }] });
  });

  it('refuses by name what cannot be', () => {
    const run = { driveFlow: 1, delivery: 0.1, fall: 2, deliveryHead: 10 };
    const codes = (outcome: ReturnType<typeof efficiencies>) => (outcome.ok ? [] : outcome.problems.map((p) => p.code));
    expect(codes(efficiencies({ ...run, delivery: -0.1 }))).toEqual(['negative']);
    expect(codes(efficiencies({ ...run, driveFlow: 0 }))).toEqual(['not-positive']);
    expect(codes(efficiencies({ ...run, fall: 0 }))).toContain('not-positive');
    expect(codes(efficiencies({ ...run, deliveryHead: 2 }))).toContain('delivery-not-above-source');
    expect(codes(efficiencies({ ...run, delivery: Number.NaN }))).toEqual(['negative']);
    for (const efficiency of [-0.01, 1.01, Number.NaN]) {
      expect(deliveryOf({ ...run, efficiency })).toMatchObject({ ok: false, problems: [{ path: 'efficiency' }] });
    }
  });

  it('is never higher by Rankine than by D’Aubuisson, and each gives the other back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 1.01, max: 50, noNaN: true }),
        (eta, ratio) => {
          const rankine = rankineOf(eta, ratio);
          expect(rankine).toBeLessThanOrEqual(eta + 1e-12);
          expect(dAubuissonOf(rankine, ratio)).toBeCloseTo(eta, 9);
        },
      ),
    );
  });

  it('agrees with the flows: Rankine counts what is lifted above the source and what is wasted', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.double({ min: 1.1, max: 30, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (driveFlow, ratio, eta) => {
          const fall = 2;
          const deliveryHead = ratio * fall;
          const delivery = good(deliveryOf({ efficiency: eta, driveFlow, fall, deliveryHead }));
          const rankine = (delivery * (deliveryHead - fall)) / ((driveFlow - delivery) * fall);
          expect(good(efficiencies({ driveFlow, delivery, fall, deliveryHead })).rankine).toBeCloseTo(rankine, 9);
          expect(delivery / driveFlow).toBeLessThanOrEqual(greatestShare(fall, deliveryHead) * (1 + 1e-12));
        },
      ),
    );
  });
});
