/**
 * SI quantities as flavoured numbers.
 *
 * A plain number may be given where a quantity is asked for, so arithmetic needs no ceremony; a quantity of another kind
 * may not, so a pressure never slips in where a length belongs.
 */
declare const unit: unique symbol;

type Quantity<Unit extends string> = number & { readonly [unit]?: Unit };

export type Metres = Quantity<'m'>;
export type SquareMetres = Quantity<'m2'>;
export type CubicMetres = Quantity<'m3'>;
export type Seconds = Quantity<'s'>;
export type MetresPerSecond = Quantity<'m/s'>;
export type CubicMetresPerSecond = Quantity<'m3/s'>;
export type Pascals = Quantity<'Pa'>;
export type Celsius = Quantity<'degC'>;
export type KilogramsPerCubicMetre = Quantity<'kg/m3'>;
export type SquareMetresPerSecond = Quantity<'m2/s'>;
export type Degrees = Quantity<'deg'>;
/** A pure number: a ratio, a loss coefficient, a friction factor. */
export type Ratio = Quantity<'1'>;
