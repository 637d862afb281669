import type { Ratio } from '../../units/quantity.ts';
import type { Site } from '../site/site.ts';
import type { SolvedSystem } from '../spread/solved-system.ts';
import type { Finding, TankResult } from './evaluation.ts';
import { deliveryResult } from './results.ts';
import { destinationVerdict } from './verdicts.ts';

/** One row for every place the pump delivers to, drawn or not, as far as it can be known. */
export function tankResults(site: Site, system: SolvedSystem | null, findings: readonly Finding[]): TankResult[] {
  if (system === null) return [];
  const volumes = new Map(site.arrangement.destinations.map((d) => [d.point.id, d.point.volume]));
  return system.model.destinations.map((destination, index) => {
    const line = deliveryResult(system, index);
    const volume = volumes.get(destination.id) ?? 0;
    const need = (share: Ratio) => (site.demandPerDay === null ? null : site.demandPerDay * share);
    const drunk = need(site.shares.drunkFrom(destination.id));
    return {
      id: destination.id,
      lift: system.known.estimate(system.layout.destination(index, 'lift')),
      liftBias: site.heights.smoothing(destination.id) - site.heights.smoothing(site.arrangement.pump?.id ?? ''),
      line,
      demandPerDay: need(site.shares.brought(destination.id)),
      storageDays: drunk === null || drunk <= 0 ? null : volume / drunk,
      verdict: line && destinationVerdict(site, findings, destination.id),
    };
  });
}
