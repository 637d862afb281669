import type { QuantityKind, UnitSystem } from '../../../units/kind.ts';
import type { UnitName } from '../../../units/unit.ts';

const BARE: Readonly<Record<UnitSystem, Partial<Record<QuantityKind, UnitName>>>> = {
  metric: {
    height: 'metre',
    length: 'metre',
    bore: 'millimetre',
    flow: 'litrePerMinute',
    'daily-volume': 'litrePerDay',
    volume: 'litre',
    pressure: 'bar',
    velocity: 'metrePerSecond',
    duration: 'second',
    temperature: 'celsius',
    share: 'percent',
  },
  us: {
    height: 'foot',
    length: 'foot',
    bore: 'inch',
    flow: 'usGallonPerMinute',
    'daily-volume': 'usGallonPerDay',
    volume: 'usGallon',
    pressure: 'psi',
    velocity: 'footPerSecond',
    duration: 'second',
    temperature: 'fahrenheit',
    share: 'percent',
  },
};

/** The unit that a number without one stands for in a field of the page. */
export function bareUnit(kind: QuantityKind, units: UnitSystem): UnitName | undefined {
  return BARE[units][kind];
}
