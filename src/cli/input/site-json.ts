import type { Estimate } from '../../evaluation/statistics/estimate.ts';
import { writePlan } from '../../plan/file/write-plan.ts';
import type { Plan } from '../../plan/model/plan.ts';
import { siteNoteSentence } from '../../report/words/site-words.ts';
import type { SiteAnswer, SitePlace, SiteSystem } from '../../siting/systems/site-answer.ts';
import { LITRE_M3 } from '../../units/factor.ts';
import type { UnitSystem } from '../../units/kind.ts';

/** The answer of `site` as JSON: other programs read these keys. */
export function siteJson(answer: SiteAnswer, units: UnitSystem): Readonly<Record<string, unknown>> {
  return {
    places: answer.places.map((place) => placeJson(place, units)),
    systems: answer.systems.map(systemJson),
    note: answer.notes.map((note) => siteNoteSentence(note, units)).join(' '),
  };
}

const metres = ({ low, likely, high }: Estimate): Estimate => ({ low, likely, high });
const litres = ({ low, likely, high }: Estimate): Estimate => ({
  low: low / LITRE_M3,
  likely: likely / LITRE_M3,
  high: high / LITRE_M3,
});

const placeJson = (place: SitePlace, units: UnitSystem): unknown => ({
  pump: { lon: place.pump.lon, lat: place.pump.lat, ground_m: place.ground },
  standpipe: place.standpipe && { lon: place.standpipe.lon, lat: place.standpipe.lat },
  fall_m: metres(place.fall),
  supply_m: place.supply,
  drive_m: place.drive,
  trench_m: place.trench,
  delivery_L_per_day: litres(place.delivery),
  because: siteNoteSentence(place.because, units),
});

const systemJson = (system: SiteSystem): unknown => ({
  name: system.name,
  delivery_L_per_day: litres(system.delivery),
  pipe_m: system.pipe,
  cost: system.cost,
  runs: system.runs,
  arrives: system.arrives,
  plan: planJson(system.plan),
});

export const planJson = (plan: Plan): unknown => JSON.parse(writePlan(plan));
