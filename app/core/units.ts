/*
 * The units of the core. Each is a whole number with its unit in the type, so that a distance cannot be passed as a
 * time. Arithmetic gives a plain number, which every unit accepts: the types guard boundaries and remind the reader,
 * but do not get in the way of sums.
 */

type Unit<Name extends string> = number & { readonly unit?: Name };

/** Whole milliseconds. */
export type Millis = Unit<'ms'>;

/** Tenths of the pool's unit (metres or yards): 12.5 m is 125. Session distances have at most one decimal. */
export type Tenths = Unit<'tenths of the unit'>;

/** Hundredths of the pool's unit: 33.33 m is 3333. Only the pool's own length is this fine. */
export type Hundredths = Unit<'hundredths of the unit'>;

/** Whole minutes after midnight, 0 to 1439. */
export type MinuteOfDay = Unit<'min of day'>;

export type LengthUnit = 'm' | 'yd';

export const SECOND: Millis = 1000;
export const MINUTE: Millis = 60_000;
export const HOUR: Millis = 3_600_000;
export const DAY: Millis = 86_400_000;
