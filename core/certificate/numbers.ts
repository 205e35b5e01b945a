/**
 * Every number a certificate prints, rounded once: id, decimal text, unit, decimals. Text and record take the same
 * strings from here, and a recompute compares its own values with them.
 */

import { isAngleCoordinate } from '../frames.ts';
import type { PlacementAnswer, StationFinding } from '../placement/types.ts';
import { degFromRad, formatFixed, percentFromRad } from '../units.ts';
import type { PrintedNumber } from './attachment.ts';

/** A number before rounding, in the unit and with the decimals it is printed with. */
export interface NumberToPrint {
  readonly id: string;
  readonly value: number;
  readonly unit: 'mm' | 'm' | 'deg' | '%' | '1';
  readonly decimals: number;
}

/** Decimals on paper: lengths to 0.1 mm, distances down the road to 0.01 m, angles to 0.01 degrees, shares to 0.1 %, coverage factors to 0.01. */
export const printedDecimals = { mm: 1, m: 2, deg: 2, '%': 1, '1': 2 } as const;

function length(id: string, valueMm: number): NumberToPrint {
  return { id, value: valueMm, unit: 'mm', decimals: printedDecimals.mm };
}

function angle(id: string, valueRad: number): NumberToPrint {
  return { id, value: degFromRad(valueRad), unit: 'deg', decimals: printedDecimals.deg };
}

function stationNumbers(sensor: string, station: StationFinding): readonly NumberToPrint[] {
  const at = `${sensor}.${station.station}`;
  const numbers = station.coordinates.flatMap((each): readonly NumberToPrint[] => {
    const of = isAngleCoordinate(each.coordinate) ? angle : length;
    const id = `${at}.${each.coordinate}`;
    return [
      of(`${id}.required`, each.required),
      of(`${id}.found`, each.found),
      of(`${id}.deviation`, each.deviation),
      of(`${id}.U`, each.U),
      { id: `${id}.k`, value: each.k, unit: '1', decimals: printedDecimals['1'] },
      ...(each.permitted?.lower === undefined ? [] : [of(`${id}.lower`, each.permitted.lower)]),
      ...(each.permitted?.upper === undefined ? [] : [of(`${id}.upper`, each.permitted.upper)]),
      ...(each.probability === undefined
        ? []
        : [
            {
              id: `${id}.probability`,
              value: each.probability * 100,
              unit: '%' as const,
              decimals: printedDecimals['%'],
            },
          ]),
      ...(each.consequence === undefined
        ? []
        : [
            angle(`${id}.aim`, each.consequence.aimRad),
            {
              id: `${id}.at50`,
              value: each.consequence.metresAt50,
              unit: 'm' as const,
              decimals: printedDecimals.m,
            },
          ]),
    ];
  });
  return station.slide === undefined ? numbers : [...numbers, length(`${at}.slide`, station.slide.setMm)];
}

function vehicleNumbers(sensor: string, answer: PlacementAnswer): readonly NumberToPrint[] {
  const vehicle = answer.vehicle;
  if (vehicle === undefined) return [];
  const at = `${sensor}.vehicle`;
  const slope = (id: string, valueRad: number): NumberToPrint => ({
    id: `${at}.${id}`,
    value: percentFromRad(valueRad),
    unit: '%',
    decimals: 2,
  });
  return [
    length(`${at}.wheelbase`, vehicle.wheelbase.value),
    length(`${at}.trackFront`, vehicle.trackFront.value),
    length(`${at}.trackRear`, vehicle.trackRear.value),
    slope('slopeAhead', vehicle.slopeAheadRad),
    slope('slopeLeft', vehicle.slopeLeftRad),
    length(`${at}.rock`, Math.max(...Object.values(vehicle.warpMm).map((each) => Math.abs(each)))),
    ...(vehicle.thrustLine === undefined
      ? []
      : [
          angle(`${at}.thrust`, vehicle.thrustLine.angle.value),
          angle(`${at}.thrust.U`, vehicle.thrustLine.expandedRad),
        ]),
  ];
}

/** All numbers of one sensor's placement. Only stations that were found are printed with numbers. */
export function placementNumbers(sensor: string, answer: PlacementAnswer): readonly NumberToPrint[] {
  const found = answer.stations.filter((each) => each.basis === 'found');
  return [...vehicleNumbers(sensor, answer), ...found.flatMap((each) => stationNumbers(sensor, each))];
}

/** A number as it stands on paper and in the record. */
export function printNumber(number: NumberToPrint): PrintedNumber {
  return {
    id: number.id,
    value: formatFixed(number.value, number.decimals),
    unit: number.unit,
    decimals: number.decimals,
  };
}

/** Difference below which a recomputed number confirms a printed one: half its last place, plus 1e-6 of it. */
export function confirmsNumber(printed: PrintedNumber, recomputed: number): boolean {
  let lastPlace = 1;
  for (let i = 0; i < printed.decimals; i += 1) lastPlace /= 10;
  return Math.abs(Number(printed.value) - recomputed) <= lastPlace * (0.5 + 1e-6);
}
