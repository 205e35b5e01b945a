/**
 * Load index and speed symbol of a tyre: what one tyre may carry and how fast. Used to say that a fitted tyre is weaker than
 * the one the car is approved with. ISO 4000-1 and UN Regulation No. 30, annex 4 (values as printed in public tables).
 */

/** Load index of the first entry of the table below. */
const FIRST_INDEX = 71;

/** kg at 71, 72, ..., ten a line. The steps are those of a rounded geometric series, not a formula. */
const LOADS_KG = [
  '345 355 365 375 387 400 412 425 437 450',
  '462 475 487 500 515 530 545 560 580 600',
  '615 630 650 670 690 710 730 750 775 800',
  '825 850 875 900 925 950 975 1000 1030 1060',
  '1090 1120 1150 1180 1215 1250 1285 1320 1360 1400',
  '1450 1500 1550',
].flatMap((line) => line.split(' ').map(Number));

/** Load one tyre of a load index carries, kg: 91 is 615. Undefined outside 71 to 123, the indices of cars and vans. */
export function loadOfIndexKg(index: number): number | undefined {
  return Number.isInteger(index) ? LOADS_KG[index - FIRST_INDEX] : undefined;
}

/** Speeds by symbol, km/h. */
const SPEEDS_KMH: Readonly<Record<string, number>> = {
  L: 120,
  M: 130,
  N: 140,
  P: 150,
  Q: 160,
  R: 170,
  S: 180,
  T: 190,
  U: 200,
  H: 210,
  V: 240,
  W: 270,
  Y: 300,
};

/** Speed a tyre of a symbol is made for, km/h: H is 210, out of the alphabet's order. Undefined for others. */
export function speedOfSymbolKmh(symbol: string): number | undefined {
  return Object.hasOwn(SPEEDS_KMH, symbol) ? SPEEDS_KMH[symbol] : undefined;
}
