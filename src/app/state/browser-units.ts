import type { UnitSystem } from '../../plan/model/plan.ts';

/** Countries whose people measure in feet and gallons: CIA World Factbook, appendix on weights and measures, from memory. */
const CUSTOMARY: ReadonlySet<string> = new Set(['US', 'LR', 'MM']);

/** The units that whoever reads a browser's languages measures in: by the first that names a country, else metric. */
export function unitsOf(languages: readonly string[]): UnitSystem {
  for (const language of languages) {
    const region = regionOf(language);
    if (region !== undefined) return CUSTOMARY.has(region) ? 'us' : 'metric';
  }
  return 'metric';
}

function regionOf(language: string): string | undefined {
  try {
    return new Intl.Locale(language).region;
  } catch {
    return undefined;
  }
}
