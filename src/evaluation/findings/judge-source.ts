import { exactly } from '../compare.ts';
import type { SolvedSystem } from '../system.ts';
import { type Judged, judge, undecided } from './finding.ts';

/** The source, the supply line and the standpipe: does enough water stand above the drive pipe's inlet while it runs? */
export function judgeSource(system: SolvedSystem): Judged[] {
  return [...judgeYield(system), ...judgeFall(system), ...judgeSupply(system), ...judgeStandpipe(system)];
}

function judgeYield({ site, model, known, layout }: SolvedSystem): Judged[] {
  const { confidence } = site.plan;
  const about = site.arrangement.source?.id ?? '';
  if (model.available === null) return [judge('yield-unread', confidence, { about, spread: undecided(0), limit: 1 })];
  const need = model.behaviour.intakeSet ?? model.behaviour.intakeLeast;
  if (need <= 0) return [];
  const output = layout.shared('available');
  const facts = { need, set: model.behaviour.intakeSet === null ? 'no' : 'yes' };
  return [judge('source-short', confidence, { about, spread: known.spread(output), limit: need, output, facts })];
}

function judgeFall({ site, known, layout }: SolvedSystem): Judged[] {
  const output = layout.shared('fall');
  const about = site.arrangement.pump?.id ?? '';
  return [judge('fall-small', site.plan.confidence, { about, spread: known.spread(output), output })];
}

function judgeSupply({ site, model, known, layout }: SolvedSystem): Judged[] {
  const { supply, drive } = site.arrangement;
  if (supply === null || model.supply === null) return [];
  const { confidence } = site.plan;
  const found: Judged[] = [];
  const need = model.behaviour.intakeSet ?? model.behaviour.intakeLeast;
  if (need > 0) {
    const output = layout.shared('supply-limit');
    found.push(
      judge('supply-short', confidence, {
        about: supply.id,
        spread: known.spread(output),
        limit: need,
        output,
      }),
    );
  }
  if (model.supply.highPlaces.length > 0) {
    const output = layout.shared('supply-clearance');
    const at = model.supply.highPlaces[0]?.at ?? 0;
    found.push(
      judge('supply-air', confidence, {
        about: supply.id,
        spread: known.spread(output),
        limit: 0,
        output,
        facts: { at },
      }),
    );
  }
  const bore = site.pipes.get(supply.pipe)?.bore;
  const driveBore = drive ? site.pipes.get(drive.pipe)?.bore : undefined;
  if (bore !== undefined && driveBore !== undefined) {
    found.push(
      judge('supply-bore', confidence, {
        about: supply.id,
        spread: exactly(bore / driveBore),
        facts: { bore, driveBore },
      }),
    );
  }
  return found;
}

function judgeStandpipe({ site, known, layout }: SolvedSystem): Judged[] {
  const { standpipe } = site.arrangement;
  if (standpipe === null) return [];
  const output = layout.shared('freeboard');
  return [
    judge('standpipe-low', site.plan.confidence, {
      about: standpipe.id,
      spread: known.spread(output),
      output,
      facts: { top: standpipe.topHeight },
    }),
  ];
}
