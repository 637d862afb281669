import { describe, expect, it } from 'vitest';
import { provenanceOf, published } from '../../src/handbook/provenance.ts';
import { roughnessOf, surfaces } from '../../src/handbook/roughness.ts';
import { waveMaterial } from '../../src/handbook/wave-materials.ts';

const FOOT = 0.3048;

describe('walls', () => {
  it('are as rough as EPANET says, where it says so', () => {
    // EPANET 2.2 User Manual, table 3.2, in thousandths of a foot; the handbook rounds to the digits shown.
    expect(roughnessOf('smooth-plastic').value).toBeCloseTo(0.005e-3 * FOOT, 7);
    expect(roughnessOf('steel-new').value).toBeCloseTo(0.15e-3 * FOOT, 7);
    expect(roughnessOf('steel-galvanised').high).toBeCloseTo(0.5e-3 * FOOT, 9);
    expect(roughnessOf('cast-iron').value).toBeCloseTo(0.85e-3 * FOOT, 6);
  });

  it.each(surfaces())('%s lies within its range', (surface) => {
    const { value, low, high, source } = roughnessOf(surface);
    expect(low).toBeGreaterThan(0);
    expect(value).toBeGreaterThanOrEqual(low);
    expect(value).toBeLessThanOrEqual(high);
    expect(source).not.toBe('');
  });

  it.each(['steel', 'copper', 'pvc', 'pe'] as const)('%s gives way within its range', (material) => {
    const { modulus, modulusLow, modulusHigh, poisson } = waveMaterial(material);
    expect(modulus).toBeGreaterThanOrEqual(modulusLow);
    expect(modulus).toBeLessThanOrEqual(modulusHigh);
    expect(poisson).toBeGreaterThan(0.2);
    expect(poisson).toBeLessThan(0.5);
  });

  it('are stiffer the more metal they are', () => {
    const stiffness = (['pe', 'pvc', 'copper', 'steel'] as const).map((material) => waveMaterial(material).modulus);
    expect(stiffness).toEqual([...stiffness].sort((a, b) => a - b));
  });
});

describe('a wrong data file', () => {
  it('is refused with what was found and what was expected', () => {
    expect(() => published('5 cubits', 'length')).toThrow(/found 5 cubits in the handbook, expected a length/);
    expect(() => provenanceOf('hearsay')).toThrow(/found provenance hearsay, expected one of found/);
  });
});
